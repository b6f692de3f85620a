//! Random damage to all that is read (links, files, kept drafts, spreadsheet blocks, tapes, papers, tasks of long work), and random messages to the page's
//! state: never a panic, what is read is written and read again alike, and what is refused is refused in sentences.
//! A few thousand tries in every run; `FUZZ=600 SEED=1 cargo test --release -p tests --test page fuzz` goes on for so many seconds.

use crate::readers::sound;
use kernel::{LeftOrRight, PointId, READINGS, TyreSize, Vec3};
use std::time::{Duration, Instant};
use web::app::{About, App, Build, Course, Hand, Message, Open, Point, Run, Show, Soften, Stand, Step};
use web::content::demos::{DEMOS, first, layout};
use web::document::{Document, Over};
use web::link;

/// Numbers that look random (xorshift, G. Marsaglia 2003), the same in every run unless time decides how many.
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, most: usize) -> usize {
        (self.next() % most.max(1) as u64) as usize
    }
}

/// Pieces that break readers.
const PIECES: [&str; 37] = [
    "",
    "&",
    "=",
    "_",
    ".",
    "-",
    "%",
    "%00",
    "%FF",
    "&v=1",
    "&v=3",
    "NaN",
    "1e308",
    "-0",
    "inf",
    "0.000001",
    "9999999",
    "none",
    "b.",
    "{",
    "[",
    "\"",
    "\u{202e}",
    "arms",
    "v=3&",
    "&of=strut.1",
    "&of=x",
    "&c=ws_5",
    "~",
    "_d_",
    "&cl=rh_3",
    "&w0.name=a",
    "&b.of=four-arm.1",
    "&a0.of=strut.1",
    "&kept=%7B%7D",
    "\n",
    "&amp;",
];

/// One to six places cut, doubled, swapped for a piece or for another digit.
fn damaged(text: &str, random: &mut Random) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    for _ in 0..=random.below(6) {
        let at = random.below(letters.len());
        match random.below(5) {
            0 => drop(letters.splice(at..(at + random.below(20)).min(letters.len()), [])),
            1 => {
                let end = (at + random.below(30)).min(letters.len());
                let copy: Vec<char> = letters[at..end].to_vec();
                letters.splice(at..at, copy);
            }
            2 => drop(letters.splice(at..at, PIECES[random.below(PIECES.len())].chars())),
            3 if at < letters.len() => letters[at] = char::from(b'0' + random.below(10) as u8),
            _ if at < letters.len() => letters[at] = char::from_u32(random.below(0x300) as u32 + 1).unwrap_or('x'),
            _ => {}
        }
    }
    letters.into_iter().collect()
}

/// A number that a box may hold: any but those that are none, and some are far out.
fn number(random: &mut Random) -> f64 {
    const ODD: [f64; 7] = [0.0, -0.0, 1e300, -1e300, f64::MAX, 1e-300, -9_999.0];
    match random.below(8) {
        0 => ODD[random.below(ODD.len())],
        1 => 10_000.0 * (random.below(2_000) as f64 / 1_000.0 - 1.0),
        _ => 80.0 * (random.below(2_000) as f64 / 1_000.0 - 1.0),
    }
}

fn vector(random: &mut Random) -> Vec3 {
    Vec3::new(number(random), number(random), number(random))
}

/// Anything that hands may do.
fn message(random: &mut Random) -> Message {
    let point = PointId::ALL[random.below(PointId::ALL.len())].0;
    let yes = random.below(2) == 0;
    let column = READINGS[random.below(READINGS.len())].column;
    match random.below(32) {
        0 => Open::Demo(random.below(8)).into(),
        1 => Open::Start.into(),
        2 => About::Rename(PIECES[random.below(PIECES.len())].into()).into(),
        3 => About::Swap.into(),
        4 => About::Compare(yes.then(|| Box::new(first()))).into(),
        5 => Build::ResetToe.into(),
        6 => Build::Freeze("as it is".into()).into(),
        7 => Build::Take(random.below(8)).into(),
        8 => Build::Lay(random.below(8)).into(),
        9 => Build::Drop(random.below(8)).into(),
        10 => Build::CompareNow.into(),
        11 => TyreSize::parse("205/55 R16").map_or(Step::Undo.into(), |size| Build::Tyre(size).into()),
        12 => Course::Copy.into(),
        13 => Course::Try.into(),
        14 => Course::Back.into(),
        15 => Course::Leave.into(),
        16 => Course::Turn(random.below(4)).into(),
        17 => Hand::Select(yes.then_some(point)).into(),
        18 => Hand::Hold.into(),
        19 => Hand::Release.into(),
        20 => Hand::Drag(point, vector(random)).into(),
        21 => Hand::Nudge(vector(random)).into(),
        22 => Hand::Reset.into(),
        23 => Point::Move(point, vector(random)).into(),
        24 => Point::Place(point, vector(random)).into(),
        25 => Point::Lock(point, [yes; 3]).into(),
        26 => Point::Error(point, number(random)).into(),
        27 => Soften::Usual(yes).into(),
        28 => [Show::Whole(yes), Show::Pin(column), Show::Over(Over::Roll), Show::Side(LeftOrRight::Right)]
            [random.below(4)]
        .into(),
        29 => Run::To(number(random), number(random)).into(),
        30 => if yes { Step::Undo } else { Step::Redo }.into(),
        _ => [
            Stand::Travel(number(random)),
            Stand::Rack(number(random)),
            Stand::Ride(number(random)),
            Stand::Roll(number(random)),
            Stand::Travels(number(random), number(random)),
            Stand::AtRest,
        ][random.below(6)]
        .into(),
    }
}

/// So many messages to a page: what it shows are numbers, what it says are sentences, and its link is always a sound one.
fn one_visit(random: &mut Random, messages: usize) {
    let mut app = App::new(Document::of(layout(random.below(DEMOS.len())).unwrap_or_else(first)), Vec::new());
    let mut done = Vec::new();
    for _ in 0..messages {
        let message = message(random);
        done.push(format!("{message:?}"));
        app.update(message);
        for reading in &READINGS {
            assert!(app.study.good.value(reading).is_none_or(f64::is_finite), "{} after {done:?}", reading.column);
        }
        assert!(app.notices.iter().all(|said| said.ends_with('.')), "{:?} after {done:?}", app.notices);
    }
    let own = link::write(&app.document);
    let (again, faults) = link::read(&own).expect("a link");
    assert_eq!(faults, Vec::<String>::new(), "{own} after {done:?}");
    assert_eq!(link::write(&again), own);
}

#[test]
fn random_messages_never_break_the_page() {
    let seconds: Option<u64> = std::env::var("FUZZ").ok().and_then(|text| text.parse().ok());
    let end = seconds.map(|seconds| Instant::now() + Duration::from_secs(seconds));
    let seed = std::env::var("SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(2026);
    let mut random = Random(seed);
    let mut visits = 0_u64;
    while end.map_or(visits < 12, |end| Instant::now() < end) {
        one_visit(&mut random, 25);
        visits += 1;
    }
    eprintln!("{visits} visits");
}

#[test]
fn damaged_input_never_breaks_a_reader() {
    let seconds: Option<u64> = std::env::var("FUZZ").ok().and_then(|text| text.parse().ok());
    let end = seconds.map(|seconds| Instant::now() + Duration::from_secs(seconds));
    let seed = std::env::var("SEED").ok().and_then(|text| text.parse().ok());
    let mut random = Random(seed.unwrap_or(if end.is_some() { 0x9E37_79B9_7F4A_7C15 } else { 2026 }));
    let sound = sound((0..DEMOS.len()).map(|index| link::write(&crate::link_three::full(index))));
    let mut tries = 0_u64;
    while end.map_or(tries < 600, |end| Instant::now() < end) {
        for (reader, texts) in &sound {
            reader(&damaged(&texts[random.below(texts.len())], &mut random));
        }
        tries += 1;
    }
    eprintln!("{tries} tries of each reader");
}
