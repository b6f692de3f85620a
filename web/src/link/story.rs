//! The shots of a story.

use super::absent;
use super::layout;
use super::parameter::Parameter;
use super::position::{self, AXLE_KEY, RACK, TRAVEL};
use super::reader::Reader;
use super::readings;
use super::topic::Topic;
use super::writer::Writer;
use crate::content::demos;
use crate::document::Document;
use crate::document::place::MOST_TRAVEL;
use crate::document::story::{self, LENGTHS, MOST_SHOTS, Moves, Shot};
use kernel::{Changes, LONGEST_NOTE, Layout, PointId};

/// A demo of the page by its number, in place of a layout; since version 3 a layout says itself which demo it is of.
const DEMO: Parameter = Parameter::optional("demo");

/// Pinned readings.
const PINS: Parameter = Parameter::optional("pins");

/// The code of the joint pointed at.
const AT: Parameter = Parameter::optional("at");

/// Text: the caption.
const SAID: Parameter = Parameter::optional("said");

/// How long it is shown, s, where that is not as usual.
const LASTS: Parameter = Parameter::optional("lasts");

/// What moves meanwhile, if something does.
const MOVES: Parameter = Parameter::optional("moves");

/// A shot's rack goes this far, mm, whatever its axle allows.
const MOST_RACK: f64 = 1_000.0;

/// The shots in a row; besides their own parameters they have `travel`, `rack` and, where both wheels are shown, `axle`.
pub const TOPIC: Topic<Document> = Topic::new(
    |document, link| {
        for (at, shot) in document.story.iter().enumerate() {
            link.within(&prefix(at), |link| write(shot, link));
        }
    },
    |link, document| {
        let shot = |at| link.within(&prefix(at), |link| link.has(SAID).then(|| read(link)));
        document.story = (0..MOST_SHOTS).map_while(shot).collect();
    },
);

/// What the names of a shot's parameters begin with.
fn prefix(at: usize) -> String {
    format!("s{at}.")
}

fn write(shot: &Shot, link: &mut Writer) {
    if link.version >= 3 {
        link.assume(&absent::SHOT);
    }
    let design = Layout { changes: Changes::default(), ..shot.layout.clone() };
    let demo = || (0..demos::DEMOS.len()).find(|index| demos::layout(*index).as_ref() == Some(&design));
    match Some(link.version).filter(|version| *version < 3).and_then(|_| demo()) {
        Some(index) => link.put(DEMO, index.to_string()),
        None => layout::write(&shot.layout, link),
    }
    link.put(PINS, readings::write(&shot.pinned));
    link.put(AT, shot.points_at.map_or("", PointId::code));
    link.text(SAID, &shot.caption);
    link.numbers(TRAVEL, &[shot.travel]);
    link.numbers(RACK, &[shot.rack]);
    if shot.lasts != story::LASTS {
        link.numbers(LASTS, &[shot.lasts]);
    }
    if let Some((_, name, _)) =
        Moves::ALL.iter().find(|(moves, ..)| *moves == shot.moves && shot.moves != Moves::Nothing)
    {
        link.put(MOVES, *name);
    }
    if shot.whole {
        position::write_axle(true, shot.roll, link);
    }
}

fn read(link: &mut Reader) -> Shot {
    if link.version >= 3 {
        link.assume(&absent::SHOT);
    }
    let demo = link.take(DEMO).and_then(|text| demos::layout(text.parse().ok()?));
    let layout = demo.unwrap_or_else(|| layout::read(link));
    let pinned = readings::read(link, PINS);
    let code = link.take(AT).filter(|code| !code.is_empty());
    let points_at = code.as_deref().and_then(PointId::coded);
    if let (Some(code), None) = (&code, points_at) {
        link.wrong(AT, code, "the code of a point");
    }
    let caption = link.text(SAID, LONGEST_NOTE).unwrap_or_default();
    let (travel, rack) = (position::read(link, TRAVEL, MOST_TRAVEL), position::read(link, RACK, MOST_RACK));
    // Older shots are of one wheel.
    let axle = if link.has(AXLE_KEY) { position::read_axle(link) } else { None };
    let (whole, roll) = axle.unwrap_or_default();
    let [lasts] = if link.has(LASTS) { link.numbers(LASTS).unwrap_or([story::LASTS]) } else { [story::LASTS] };
    if !(LENGTHS[0]..=LENGTHS[1]).contains(&lasts) {
        link.wrong(LASTS, &lasts.to_string(), &format!("between {} and {} s", LENGTHS[0], LENGTHS[1]));
    }
    let name = link.take(MOVES).unwrap_or_default();
    let moves = Moves::ALL.iter().find(|(_, known, _)| *known == name).map(|(moves, ..)| *moves);
    if moves.is_none() && !name.is_empty() {
        link.wrong(MOVES, &name, "one of: bump, steer");
    }
    let (lasts, moves) = (lasts.clamp(LENGTHS[0], LENGTHS[1]), moves.unwrap_or_default());
    Shot { layout, travel, rack, whole, roll, pinned, points_at, caption, lasts, moves }
}
