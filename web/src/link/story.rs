//! The shots of a story.

use super::absent;
use super::compare::COMPARED;
use super::layout;
use super::parameter::Parameter;
use super::position::{self, AXLE_KEY, RACK, TRAVEL};
use super::reader::Reader;
use super::readings;
use super::topic::Topic;
use super::writer::Writer;
use crate::content::demos;
use crate::document::place::MOST_TRAVEL;
use crate::document::story::{self, LENGTHS, MOST_DRAGGED, MOST_SHOTS, Moves, Seen, Shot, Stress, ZOOMS};
use crate::document::{Case, Document};
use kernel::{Changes, LONGEST_NOTE, Layout, PointId, Vec3};

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

/// How far the joint pointed at is dragged, mm along x, y and z.
const BY: Parameter = Parameter::optional("by");

/// From where it is seen, if not from three sides.
const SEEN: Parameter = Parameter::optional("view");

/// How many times larger than to fit it is drawn, if it is.
const ZOOM: Parameter = Parameter::optional("zoom");

/// What is emphasised: `joint`, `axis`, `room`, a member by its path, `strut` or a reading.
const STRESS: Parameter = Parameter::optional("stress");

/// The load case, if there is one.
const CASE: Parameter = Parameter::optional("case");

/// A shot's rack goes this far, mm, whatever its axle allows.
const MOST_RACK: f64 = 1_000.0;

/// The shots in a row; besides their own parameters they have `travel`, `rack`, where both wheels are shown `axle`, and an axle laid over as the document has it.
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
    if shot.by != Vec3::zeros() {
        link.numbers(BY, shot.by.as_slice());
    }
    if shot.zoom != 1.0 {
        link.numbers(ZOOM, &[shot.zoom]);
    }
    let seen = Seen::ALL.iter().find(|(seen, ..)| *seen == shot.seen && shot.seen != Seen::All);
    link.put_if(SEEN, seen.map(|(_, name, _)| (*name).into()));
    link.put_if(STRESS, shot.stress.map(|stress| stress.key().into()));
    let case = Case::all().find(|(case, _)| *case == shot.case && shot.case != Case::None);
    link.put_if(CASE, case.map(|(_, name)| name.into()));
    if let Some(over) = &shot.over {
        link.within(COMPARED, |link| layout::write(over, link));
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
        link.wrong(MOVES, &name, "one of: bump, steer, drag, change");
    }
    let (lasts, moves) = (lasts.clamp(LENGTHS[0], LENGTHS[1]), moves.unwrap_or_default());
    let shot = Shot { travel, rack, whole, roll, pinned, points_at, lasts, moves, ..Shot::at_rest(layout, caption) };
    look(shot, link)
}

/// How a shot is looked at, and what is shown besides. Older shots say nothing of it.
fn look(mut shot: Shot, link: &mut Reader) -> Shot {
    if link.has(BY)
        && let Some(by) = link.numbers(BY).map(|by: [f64; 3]| Vec3::from(by))
    {
        shot.by = by.map(|mm| mm.clamp(-MOST_DRAGGED, MOST_DRAGGED));
        if shot.by != by {
            link.wrong(BY, &format!("{by:?}"), &format!("three numbers within ±{MOST_DRAGGED} mm"));
        }
    }
    if link.has(ZOOM)
        && let Some([zoom]) = link.numbers(ZOOM)
    {
        shot.zoom = zoom.clamp(ZOOMS[0], ZOOMS[1]);
        if shot.zoom != zoom {
            link.wrong(ZOOM, &zoom.to_string(), &format!("between {} and {}", ZOOMS[0], ZOOMS[1]));
        }
    }
    let seen = |name: &str| Seen::ALL.iter().find(|(_, known, _)| *known == name).map(|(seen, ..)| *seen);
    shot.seen = one_of(link, SEEN, seen, "one of: front, side, plan, space").unwrap_or_default();
    shot.stress = one_of(link, STRESS, Stress::keyed, "joint, axis, room, strut, a member or a reading");
    let case = |name: &str| Case::all().find(|(_, known)| *known == name).map(|(case, _)| case);
    shot.case = one_of(link, CASE, case, "a load case").unwrap_or_default();
    shot.over = link.has_any(COMPARED).then(|| link.within(COMPARED, layout::read));
    shot
}

/// Takes a parameter that is a name, if it is there.
fn one_of<T>(link: &mut Reader, parameter: Parameter, known: impl Fn(&str) -> Option<T>, what: &str) -> Option<T> {
    let name = link.take(parameter).filter(|name| !name.is_empty())?;
    let found = known(&name);
    if found.is_none() {
        link.wrong(parameter, &name, what);
    }
    found
}
