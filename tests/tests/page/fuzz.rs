//! Random damage to links, files, kept drafts and spreadsheet blocks: never a panic, and what is read is written and read again alike.
//! A few thousand tries in every run; `FUZZ=600 cargo test --release -p tests --test page fuzz` goes on for so many seconds.

use kernel::Layout;
use std::time::{Duration, Instant};
use web::content::demos::{DEMOS, first, layout, lowered};
use web::document::Document;
use web::exchange::{block, drafts};
use web::link;
use web::study::Study;

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

fn one_link(text: &str) {
    let Some((document, faults)) = link::read(text) else { return };
    assert!(faults.iter().all(|fault| fault.ends_with('.')), "{faults:?}");
    let study = Study::new(&document, web::content::demos::opening);
    for reading in &kernel::READINGS {
        assert!(study.good.value(reading).is_none_or(f64::is_finite), "{} of {text}", reading.column);
    }
    // What was read is a document like any other: its own link is sound and opens to the same, to the digits a link has.
    let own = link::write(&document);
    let (again, faults) = link::read(&own).expect("a link");
    assert_eq!(faults, Vec::<String>::new(), "{own}");
    assert_eq!(link::write(&again), own);
}

#[test]
fn damaged_input_never_breaks_a_reader() {
    let seconds: Option<u64> = std::env::var("FUZZ").ok().and_then(|text| text.parse().ok());
    let end = seconds.map(|seconds| Instant::now() + Duration::from_secs(seconds));
    let mut random = Random(if end.is_some() { 0x9E37_79B9_7F4A_7C15 } else { 2026 });
    let mut links: Vec<String> = (0..DEMOS.len()).filter_map(layout).map(|l| link::write(&Document::of(l))).collect();
    links.extend(lowered().iter().map(|(_, document)| link::write(document)));
    let mut both = Document::of(first());
    (both.compared, both.whole, both.roll) = (layout(0), true, 1.5);
    both.beside = layout(1).into_iter().collect();
    links.push(link::write(&both));
    links.extend((0..DEMOS.len()).map(|index| link::write(&crate::link_three::full(index))));
    links.extend(web::content::exercises::all().iter().map(|exercise| link::write(&exercise.document)));
    let files: Vec<String> = (0..DEMOS.len()).filter_map(layout).map(|l| l.to_json()).collect();
    let mut tries = 0_u64;
    while end.map_or(tries < 600, |end| Instant::now() < end) {
        one_link(&damaged(&links[random.below(links.len())], &mut random));
        let file = damaged(&files[random.below(files.len())], &mut random);
        match Layout::from_json(&file) {
            Err(sentence) => assert!(sentence.ends_with('.'), "{sentence}"),
            Ok(layout) if kernel::validate(&layout).is_empty() => {
                drop(Study::new(&Document::of(layout), web::content::demos::opening))
            }
            Ok(_) => {}
        }
        let kept = damaged("1764000000000 v=2&travel=3\n1763000000000 v=2&rack=1\n", &mut random);
        drop(drafts::read(&kept));
        let points = first();
        let from = (random.below(2) == 0).then(|| (random.below(20), random.below(4)));
        match block::read(&damaged(&block::write(&points), &mut random), &points, &Default::default(), from) {
            Err(sentence) => assert!(sentence.ends_with('.'), "{sentence}"),
            Ok(block) => assert!(block.wrong.iter().all(|sentence| sentence.ends_with('.')), "{:?}", block.wrong),
        }
        tries += 1;
    }
    eprintln!("{tries} tries of each reader");
}
