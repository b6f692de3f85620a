//! Document ↔ the parameters of a link. Versioned, total, never panics; every fault gets a sentence and the rest opens.
//! Long because the table of its parameters is.
//!
//! `v=2&name=…&note=…&wheel=x_y_z_camber_toe_loaded_free_width&lower=arms&lf=…&lr=…&upper=wishbone&uf=…&ur=…&uo=…&tr=…&gear=…&spring=…&rocker=…&damper=…&bar=…&shaft=…&car=…&ride=…&locks=…&errors=…&pins=…&over=…&units=…&axle=…&load=…&travel=…&rack=…&end=1`
//!
//! | parameter | numbers (mm, degrees, N/mm), joined by `_` |
//! | --- | --- |
//! | `wheel` | centre x y z, camber, toe, loaded radius, free radius, width |
//! | `lower`, `upper` | `arms`, `wishbone`, `strut` |
//! | `lf`, `lr`, `uf`, `ur` | an arm: inner x y z, outer x y z; a wishbone: body joint x y z |
//! | `lo`, `uo` | a wishbone's ball joint x y z |
//! | `us` | a strut: top x y z, foot x y z |
//! | `tr` | track rod: inner x y z, outer x y z |
//! | `gear` | rack travel, stroke per turn, `subframe` or `body`; or `none` |
//! | `spring` | what it stands on, rate, and, unless it takes the strut's own line, top x y z, foot x y z |
//! | `rocker` | pivot x y z, axis x y z, rod joint x y z, spring joint x y z, if there is one |
//! | `damper` | top mount to rod guide, guide to piston, rod diameter, friction, if the layout gives them |
//! | `bar` | the part the drop link rides on, bearing x y z, lever end x y z, lower link joint x y z, stiffness (N·m/°; 0: that of the diameter), diameter, if there is one |
//! | `shaft` | half-shaft: inner joint x y z, outer joint x y z, y of an unequal right shaft’s inner joint, if there is one |
//! | `stops` | travel at the bump and at the rebound stop, if there are any |
//! | `car` | `front`, `rear` or `all` driven, wheelbase, mass, front share, height of the centre of gravity, brake share, unsprung mass, rear roll centre height, roll stiffness, its front share, steering efficiency, body width, front overhang, if the layout gives them; then, unless they are 0 and `numbers`, pneumatic trail and `numbers` or `axle`, where the front roll stiffness is from |
//! | `name`, `note` | text; `_` is a space |
//! | `b.wheel`, `b.lower`, … | the same of the layout that is laid over, if there is one |
//! | `task`, `hint`, `by`, `said` | of a lesson: text; name and words of who answers |
//! | `hide` | readings hidden until an answer is checked, joined by `.` |
//! | `predict` | the reading whose change is to be predicted`~`its value at the start`_`the start's travel`_`rack`_`roll |
//! | `free` | what may be moved: `tro-z_least_most`, joined by `~` |
//! | `aims` | what is to be reached: reading`~`value`_`tolerance`_`travel`_`rack`_`roll where it is judged, joined by `~` |
//! | `number` | the number asked for and its tolerance; unless it is a plain one`~`its unit |
//! | `guess`, `first` | text: the number answered, with its unit; what it was when what is hidden was shown |
//! | `words`, `begin` | 1: words are asked for; a mark of the layout it begins with |
//! | `checked`, `shown`, `hinted` | 1: the answer has been checked; what was hidden is shown; the hint was asked for |
//! | `s0.demo`, `s0.wheel`, …, `s0.said` | the shots of a story: a demo by its number or a layout, `pins`, `at` (the joint pointed at), `said`, `travel`, `rack`, and `axle` where both wheels are shown |
//! | `ride` | the travel at which the car stands |
//! | `locks` | codes of locked points, joined by `.`; with `-` and letters, of these coordinates only: `tro.ufi-xz` |
//! | `errors` | codes of measured points and how far each may be off, joined by `_`: `tro_2_ufi_1.5` |
//! | `pins` | pinned readings, the table's columns without their unit, joined by `.` |
//! | `over` | `travel`, `upright`, `steering`, `roll` |
//! | `units` | `mm` or `in`, `deg` or `min`, `wheel` or `total` (toe), joined by `.`: what is shown, not what the link is in |
//! | `axle` | `one` wheel or `both`, and roll (°) |
//! | `load` | case (`none`, `standing`, …, `own`), `steel` or `aluminium`, with `-given` for a given section in place of a tube, own load at the road x y z and at the wheel centre x y z (N), outer diameter and wall (mm) or area and second moment (mm², mm⁴), allowed stress of the rod (N/mm²), greatest swing (°), and, unless it is 0, own driving torque (N·m) |
//! | `travel`, `rack` | mm |
//! | `end` | 1: nothing has been cut off |
//!
//! Aims and predictions of before they had a place are taken where the link's axle is.
//! Version 1 had no `errors`, `rocker`, `damper`, `bar`, `shaft`, `car`, `axle`, `load` and `end`, wrote spaces as `%20` and pins with their units.
//! Only the characters `A–Z a–z 0–9 - _ . ~ = & %` occur, the last is a digit, every value is written.

mod length;
mod lesson;
mod reader;

pub use length::too_long;

use crate::content::demos;
use crate::document::story::Shot;
use crate::document::{Case, Document, Loads, Lock, Over};
use crate::text::number::{Units, plain};
use kernel::{
    AntiRollBar, Drive, Guide, HalfShaft, Layout, Material, Mount, PointId, Rack, Reading, RollFrom, Section, Spring,
    Vec3, Vehicle, Wheel,
};
use length::refused;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use reader::Reader;

/// The version written. Older ones are read.
const VERSION: u32 = 2;

/// Everything but the unreserved characters of RFC 3986 is written as %XX; and the underscore, which stands for a space.
const RESERVED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'~');

/// The parameters of a document, without `#` or `?`.
pub fn write(document: &Document) -> String {
    let mut pairs: Vec<(String, String)> = vec![("v".into(), VERSION.to_string())];
    pairs.extend(write_layout(&document.layout).into_iter().map(|(key, value)| (key.into(), value)));
    if let Some(compared) = &document.compared {
        pairs.extend(write_layout(compared).into_iter().map(|(key, value)| (format!("{COMPARED}{key}"), value)));
    }
    let error = |(id, error): &(PointId, f64)| format!("{}_{}", id.code(), plain(*error));
    let pins = document.pinned.iter().filter_map(|column| Some(Reading::named(column)?.short()));
    let over = Over::ALL.iter().find(|(over, _)| *over == document.over).map_or("", |(_, name)| name);
    let Units { inches, minutes, total_toe } = document.units;
    let units = [
        if inches { "in" } else { "mm" },
        if minutes { "min" } else { "deg" },
        if total_toe { "total" } else { "wheel" },
    ];
    let settings = [
        ("ride", plain(document.ride)),
        ("locks", document.locks.iter().map(write_lock).collect::<Vec<_>>().join(".")),
        ("errors", document.errors.iter().map(error).collect::<Vec<_>>().join("_")),
        ("pins", pins.collect::<Vec<_>>().join(".")),
        ("over", over.into()),
        ("units", units.join(".")),
        ("axle", write_wheels(document.whole, document.roll)),
        ("load", write_loads(&document.loads)),
        ("travel", plain(document.travel)),
        ("rack", plain(document.rack)),
        ("end", "1".into()),
    ];
    for (at, shot) in document.story.iter().enumerate() {
        let prefixed = |(key, value): (&'static str, String)| (format!("s{at}.{key}"), value);
        pairs.extend(write_shot(shot).into_iter().map(prefixed));
    }
    if let Some(lesson) = &document.lesson {
        pairs.extend(lesson::write(lesson, document).into_iter().map(|(key, value)| (key.into(), value)));
    }
    pairs.extend(settings.into_iter().map(|(key, value)| (key.into(), value)));
    pairs.iter().map(|(key, value)| format!("{key}={value}")).collect::<Vec<_>>().join("&")
}

/// What the parameters of the compared layout begin with.
const COMPARED: &str = "b.";

/// One wheel or both, and roll.
fn write_wheels(whole: bool, roll: f64) -> String {
    format!("{}_{}", if whole { "both" } else { "one" }, plain(roll))
}

/// A shot of a story: a demo by its number, or the whole layout; and what else it shows.
fn write_shot(shot: &Shot) -> Vec<(&'static str, String)> {
    let demo = (0..demos::DEMOS.len()).find(|index| demos::layout(*index).as_ref() == Some(&shot.layout));
    let mut pairs = demo.map_or_else(|| write_layout(&shot.layout), |index| vec![("demo", index.to_string())]);
    let pins = shot.pinned.iter().filter_map(|column| Some(Reading::named(column)?.short()));
    pairs.extend([
        ("pins", pins.collect::<Vec<_>>().join(".")),
        ("at", shot.points_at.map_or(String::new(), |id| id.code().into())),
        ("said", text(&shot.caption)),
        ("travel", plain(shot.travel)),
        ("rack", plain(shot.rack)),
    ]);
    pairs.extend(shot.whole.then(|| ("axle", write_wheels(true, shot.roll))));
    pairs
}

/// Text in a link: percent-encoded, a space as an underscore.
fn text(text: &str) -> String {
    utf8_percent_encode(text, RESERVED).to_string().replace("%20", "_")
}

fn write_layout(layout: &Layout) -> Vec<(&'static str, String)> {
    let Wheel { centre, camber, toe, loaded_radius, free_radius, width } = &layout.wheel;
    let wheel = [centre.as_slice(), &[*camber, *toe, *loaded_radius, *free_radius, *width]].concat();
    let mut pairs = vec![("name", text(&layout.name)), ("note", text(&layout.note)), ("wheel", numbers(&wheel))];
    write_guide(&layout.lower, LOWER, &mut pairs);
    write_guide(&layout.upper, UPPER, &mut pairs);
    pairs.push(("tr", points(&[layout.track_rod.inner, layout.track_rod.outer])));
    pairs.push(("gear", layout.rack.as_ref().map_or("none".into(), write_rack)));
    pairs.push(("spring", write_spring(&layout.spring)));
    let rocker = |rocker: kernel::Rocker| points(&[rocker.pivot, rocker.axis, rocker.rod, rocker.spring]);
    let parts = [
        ("rocker", layout.spring.rocker.map(rocker)),
        ("damper", layout.damper.map(|d| numbers(&[d.guide, d.piston, d.rod, d.friction]))),
        ("bar", layout.anti_roll_bar.map(write_bar)),
        ("shaft", layout.half_shaft.map(write_shaft)),
        ("stops", layout.stops.map(|stops| numbers(&[stops.bump, stops.rebound]))),
        ("car", layout.vehicle.map(|vehicle| write_vehicle(&vehicle))),
    ];
    // A part that the axle does not have is not in its link.
    pairs.extend(parts.into_iter().filter_map(|(key, text)| Some((key, text?))));
    pairs
}

/// The parameter names of a guide: kind, front, rear, ball joint, strut.
type Keys = [&'static str; 5];
const LOWER: Keys = ["lower", "lf", "lr", "lo", "ls"];
const UPPER: Keys = ["upper", "uf", "ur", "uo", "us"];

fn numbers(values: &[f64]) -> String {
    values.iter().map(|v| plain(*v)).collect::<Vec<_>>().join("_")
}

fn points(points: &[Vec3]) -> String {
    numbers(&points.iter().flat_map(|p| p.iter().copied()).collect::<Vec<_>>())
}

fn write_guide(guide: &Guide, [kind, f, r, o, s]: Keys, pairs: &mut Vec<(&'static str, String)>) {
    match guide {
        Guide::Arms { front, rear } => pairs.extend([
            (kind, "arms".to_string()),
            (f, points(&[front.inner, front.outer])),
            (r, points(&[rear.inner, rear.outer])),
        ]),
        Guide::Wishbone { front, rear, outer } => pairs.extend([
            (kind, "wishbone".to_string()),
            (f, points(&[*front])),
            (r, points(&[*rear])),
            (o, points(&[*outer])),
        ]),
        Guide::Strut { top, foot } => pairs.extend([(kind, "strut".to_string()), (s, points(&[*top, *foot]))]),
    }
}

fn write_lock(lock: &Lock) -> String {
    let axes: String =
        ['x', 'y', 'z'].into_iter().zip(lock.axes).filter_map(|(axis, locked)| locked.then_some(axis)).collect();
    let code = lock.point.code();
    if axes == "xyz" { code.into() } else { format!("{code}-{axes}") }
}

fn write_bar(bar: AntiRollBar) -> String {
    let rest = numbers(&[bar.stiffness.unwrap_or_default(), bar.diameter]);
    format!("{}_{}_{rest}", bar.on.name(), points(&[bar.pivot, bar.lever, bar.link]))
}

fn write_shaft(shaft: HalfShaft) -> String {
    let right = shaft.right_inner_y.map_or(String::new(), |y| format!("_{}", plain(y)));
    points(&[shaft.inner, shaft.outer]) + &right
}

fn write_vehicle(vehicle: &Vehicle) -> String {
    let v = vehicle;
    let drive = Drive::ALL.iter().find(|(other, _)| *other == v.drive).map_or("", |(_, name)| name);
    let weights = [v.wheelbase, v.mass, v.front_share, v.cg_height, v.brake_share, v.unsprung_mass];
    let roll = [
        v.rear_roll_centre,
        v.roll_stiffness,
        v.roll_stiffness_share,
        v.steering_efficiency,
        v.width,
        v.front_overhang,
    ];
    let values = [&weights[..], &roll[..]].concat();
    let from = RollFrom::ALL.iter().find(|(other, _)| *other == v.roll_stiffness_from).map_or("", |(_, name)| name);
    let more = if (v.roll_stiffness_from, v.pneumatic_trail) == (RollFrom::Numbers, 0.0) {
        String::new()
    } else {
        format!("_{}_{from}", plain(v.pneumatic_trail))
    };
    format!("{drive}_{}{more}", numbers(&values))
}

fn write_loads(loads: &Loads) -> String {
    let case = Case::all().find(|(case, _)| *case == loads.case).map_or("", |(_, name)| name);
    let material = Material::ALL.iter().find(|(other, _)| *other == loads.material).map_or("", |(_, name)| name);
    let (kind, a, b) = match loads.section {
        Section::Tube { outer, wall } => ("", outer, wall),
        Section::Given { area, inertia } => ("-given", area, inertia),
    };
    let torque = Some(loads.own_torque).filter(|torque| *torque != 0.0);
    let values = [&loads.own[..], &[a, b, loads.stress, loads.swing], torque.as_slice()].concat();
    format!("{case}_{material}{kind}_{}", numbers(&values))
}

fn write_rack(rack: &Rack) -> String {
    let mount = if rack.mount == Mount::Subframe { "subframe" } else { "body" };
    format!("{}_{mount}", numbers(&[rack.travel, rack.per_turn]))
}

fn write_spring(spring: &Spring) -> String {
    let own_line = match (spring.top, spring.foot) {
        (Some(top), Some(foot)) => format!("_{}", points(&[top, foot])),
        _ => String::new(),
    };
    format!("{}_{}{own_line}", spring.on.name(), plain(spring.rate))
}

/// Reads a link's parameters, with or without a leading `#` or `?`. `None` for a link that carries no layout at all.
/// The sentences say what was wrong and what stands in its place.
pub fn read(parameters: &str) -> Option<(Document, Vec<String>)> {
    let parameters = parameters.trim_start_matches(['#', '?']);
    if parameters.is_empty() {
        return None;
    }
    if let Some(fault) = refused(parameters.len()) {
        return Some((demos::opening(), vec![fault]));
    }
    // An embedding page that has no axle of its own to show.
    let bare = |part: &str| part.starts_with("v=") || part.starts_with("embed=");
    if parameters.contains("embed=") && parameters.split('&').all(bare) {
        return Some((demos::opening(), Vec::new()));
    }
    let mut reader = Reader::new(parameters);
    let document = reader.document();
    reader.finish();
    // Letters that stand in a link as they are take up to three times the room when it is written anew.
    match refused(write(&document).len()) {
        Some(fault) => Some((demos::opening(), vec![fault])),
        None => Some((document, reader.faults)),
    }
}
