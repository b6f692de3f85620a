//! Reads the parameters of a link, one after another, and says what is wrong with each. Long because each has its own faults.

use super::{COMPARED, Keys, LOWER, UPPER, VERSION};
use crate::content::demos;
use crate::document::place::{MOST_TRAVEL, Place, ROLL};
use crate::document::{Case, Document, Loads, MOST_ERROR, MOST_PINNED, Over};
use crate::text::number::Units;
use kernel::{
    AntiRollBar, Damper, Drive, Guide, HalfShaft, LIMIT, LONGEST_NOTE, Layout, Material, Mount, PointId, Rack, Reading,
    Rocker, Rod, RollFrom, Section, Spring, SpringOn, Stops, Vec3, Vehicle, Wheel, clean, clip,
};
use percent_encoding::percent_decode_str;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// Parameters that are text.
const TEXTS: [&str; 8] = ["name", "note", "task", "hint", "by", "said", "guess", "first"];

/// Splits into decoded pairs; the first of two parameters of one name counts. From version 2, `_` is a space in texts.
fn split(parameters: &str, faults: &mut Vec<String>) -> BTreeMap<String, String> {
    let mut pairs = BTreeMap::new();
    let first = parameters.split('&').any(|part| part == "v=1");
    for part in parameters.split('&').filter(|part| !part.is_empty()) {
        let (key, value) = part.split_once('=').unwrap_or((part, ""));
        let spaces = !first && TEXTS.contains(&key.rsplit('.').next().unwrap_or(key));
        let (key, value) = (decode(key), decode(&if spaces { value.replace('_', " ") } else { value.into() }));
        match pairs.entry(key) {
            Entry::Vacant(place) => {
                place.insert(value);
            }
            Entry::Occupied(place) => {
                faults.push(format!("The link says “{}” twice; the first is used.", clip(place.key())));
            }
        }
    }
    pairs
}

/// Percent-decoded text; bytes that are no text become the replacement character. `+` stands for a space in some programs.
fn decode(text: &str) -> String {
    percent_decode_str(&text.replace('+', " ")).decode_utf8_lossy().into_owned()
}

/// Parameters that stand for something an axle, or a lesson, need not have.
const OPTIONAL: [&str; 14] = [
    "predict", "damper", "rocker", "bar", "shaft", "car", "stops", "number", "words", "shown", "checked", "hinted",
    "begin", "at",
];

/// Numbers other than coordinates may be as large as this; whether a part bears them is said when it is validated.
const MOST: f64 = 1e6;

/// The parameters not yet read, and the faults found so far.
pub struct Reader {
    pairs: BTreeMap<String, String>,
    /// A sentence a fault.
    pub faults: Vec<String>,
    /// Parameters asked for in vain.
    missing: Vec<String>,
    version: u32,
    /// What the parameters of the layout being read begin with.
    pub(super) prefix: &'static str,
}

impl Reader {
    /// Splits a link.
    pub fn new(parameters: &str) -> Reader {
        let mut faults = Vec::new();
        Reader { pairs: split(parameters, &mut faults), faults, missing: Vec::new(), version: VERSION, prefix: "" }
    }

    /// The document; what is missing or wrong comes from the demos.
    pub fn document(&mut self) -> Document {
        let version = self.take("v");
        match version.as_deref().and_then(|v| v.parse().ok()) {
            Some(known @ 1..=VERSION) => self.version = known,
            _ => {
                let version = version.map_or("no version".into(), |v| format!("version “{}”", clip(&v)));
                self.faults.push(format!(
                    "This link has {version}; this page knows versions up to {VERSION} and will try to read it anyway."
                ));
            }
        }
        let cut = self.version >= 2 && self.take("end").is_none_or(|end| end != "1");
        // Whoever embeds the page says so in the link; it is nothing of the document's.
        self.take("embed");
        let mut document = Document::of(self.layout());
        if self.pairs.keys().any(|key| key.starts_with(COMPARED)) {
            self.prefix = COMPARED;
            document.compared = Some(self.layout());
            self.prefix = "";
        }
        document.ride = self.position("ride", MOST_TRAVEL);
        self.locks(&mut document);
        self.errors(&mut document);
        document.pinned = self.pins(document.pinned);
        document.over = self.over();
        document.units = self.units();
        document.story = self.story();
        if let Some(text) = self.need_since(2, "axle")
            && let Some(wheels) = self.wheels(&text)
        {
            (document.whole, document.roll) = wheels;
        }
        document.loads = self.loads().unwrap_or_default();
        document.travel = self.position("travel", MOST_TRAVEL);
        document.rack = self.position("rack", document.rack_travel());
        (document.lesson, document.answer) = self.lesson(Place::of(&document), document.units);
        if cut && self.missing.is_empty() {
            self.faults.push("The link’s “end” is missing: it may have been cut within its last number.".into());
        }
        document
    }

    /// A layout; what is missing or wrong comes from the demos.
    pub(super) fn layout(&mut self) -> Layout {
        let stand_in = demos::first();
        let name = self.text("name", 120).unwrap_or(stand_in.name);
        let note = self.text("note", LONGEST_NOTE).unwrap_or_default();
        let wheel = self.wheel(stand_in.wheel);
        let lower = self.guide(LOWER, stand_in.lower, |layout| layout.lower);
        let upper = self.guide(UPPER, stand_in.upper, |layout| layout.upper);
        let track_rod = self.rod("tr", stand_in.track_rod);
        let rack = self.rack(stand_in.rack);
        let mut spring = self.spring(&lower, &upper);
        spring.rocker = self.rocker();
        let (damper, anti_roll_bar) = (self.damper(), self.anti_roll_bar());
        let (half_shaft, vehicle) = (self.half_shaft(), self.vehicle());
        let stops = self.take("stops").and_then(|text| self.parse("stops", &text));
        let stops = stops.map(|[bump, rebound]| Stops { bump, rebound });
        Layout {
            version: 1,
            name,
            note,
            wheel,
            lower,
            upper,
            track_rod,
            rack,
            spring,
            damper,
            anti_roll_bar,
            half_shaft,
            stops,
            vehicle,
            other: BTreeMap::new(),
        }
    }

    /// Says what is missing, and that whatever was not asked for is not known.
    pub fn finish(&mut self) {
        if !self.missing.is_empty() {
            let missing = self.missing.join(", ");
            self.faults.push(format!(
                "The link may have been cut off: {missing} {} missing and replaced by the demo’s values.",
                if self.missing.len() == 1 { "is" } else { "are" }
            ));
        }
        for key in std::mem::take(&mut self.pairs).into_keys() {
            self.faults.push(format!("The link’s parameter “{}” is unknown and was ignored.", clip(&key)));
        }
    }

    /// True if the link has a parameter that has not been read yet.
    pub(super) fn has(&self, key: &str) -> bool {
        self.pairs.contains_key(&format!("{}{key}", self.prefix))
    }

    pub(super) fn take(&mut self, key: &str) -> Option<String> {
        self.pairs.remove(&format!("{}{key}", self.prefix))
    }

    /// Takes a parameter, or notes that it is missing.
    fn need(&mut self, key: &str) -> Option<String> {
        let value = self.take(key);
        if value.is_none() {
            self.missing.push(format!("“{}{key}”", self.prefix));
        }
        value
    }

    /// The same for a parameter that came with a later version: older links are not missing it.
    fn need_since(&mut self, version: u32, key: &str) -> Option<String> {
        if self.version < version { self.take(key) } else { self.need(key) }
    }

    pub(super) fn wrong(&mut self, key: &str, value: &str, wanted: &str) {
        let then = if OPTIONAL.contains(&key) { "it is left out" } else { "the demo’s value is used instead" };
        self.faults.push(format!("The link’s “{}{key}” is “{}”, not {wanted}; {then}.", self.prefix, clip(value)));
    }

    pub(super) fn text(&mut self, key: &str, longest: usize) -> Option<String> {
        let text = clean(&self.need(key)?);
        let length = text.chars().count();
        if length > longest {
            self.faults.push(format!("The link’s “{key}” has {length} characters and is cut to {longest}."));
        }
        Some(text.chars().take(longest).collect())
    }

    /// `N` numbers joined by `_`, each within ±[`LIMIT`].
    fn parse<const N: usize>(&mut self, key: &str, text: &str) -> Option<[f64; N]> {
        self.parse_within(key, text, LIMIT)
    }

    pub(super) fn parse_within<const N: usize>(&mut self, key: &str, text: &str, most: f64) -> Option<[f64; N]> {
        let number = |part: &str| part.parse().ok().filter(|v: &f64| v.abs() <= most);
        let values: Vec<f64> = text.split('_').map(number).collect::<Option<_>>().unwrap_or_default();
        let values = values.try_into().ok();
        if values.is_none() {
            self.wrong(key, text, &format!("{N} numbers within ±{most} joined by _"));
        }
        values
    }

    fn numbers<const N: usize>(&mut self, key: &str) -> Option<[f64; N]> {
        let text = self.need(key)?;
        self.parse(key, &text)
    }

    fn point(&mut self, key: &str, stand_in: Vec3) -> Vec3 {
        self.numbers::<3>(key).map_or(stand_in, Vec3::from)
    }

    fn rod(&mut self, key: &str, stand_in: Rod) -> Rod {
        let Some([a, b, c, d, e, f]) = self.numbers(key) else { return stand_in };
        Rod { inner: Vec3::new(a, b, c), outer: Vec3::new(d, e, f) }
    }

    fn wheel(&mut self, stand_in: Wheel) -> Wheel {
        let Some([x, y, z, camber, toe, loaded_radius, free_radius, width]) = self.numbers("wheel") else {
            return stand_in;
        };
        Wheel { centre: Vec3::new(x, y, z), camber, toe, loaded_radius, free_radius, width }
    }

    /// A guide of the kind the link says; missing numbers come from the first demo that has one of that kind.
    fn guide(&mut self, [kind, f, r, o, s]: Keys, stand_in: Guide, of: fn(Layout) -> Guide) -> Guide {
        let named = self.need(kind);
        let demo = |wanted: fn(&Guide) -> bool| (0..demos::DEMOS.len()).filter_map(demos::layout).map(of).find(wanted);
        let guide = match named.as_deref() {
            Some("arms") => demo(|guide| matches!(guide, Guide::Arms { .. })),
            Some("wishbone") => demo(|guide| matches!(guide, Guide::Wishbone { .. })),
            Some("strut") => demo(|guide| matches!(guide, Guide::Strut { .. })),
            Some(other) => {
                self.wrong(kind, other, "arms, wishbone or strut");
                None
            }
            None => None,
        };
        match guide.unwrap_or(stand_in) {
            Guide::Arms { front, rear } => Guide::Arms { front: self.rod(f, front), rear: self.rod(r, rear) },
            Guide::Wishbone { front, rear, outer } => {
                Guide::Wishbone { front: self.point(f, front), rear: self.point(r, rear), outer: self.point(o, outer) }
            }
            Guide::Strut { top, foot } => {
                let Rod { inner: top, outer: foot } = self.rod(s, Rod { inner: top, outer: foot });
                Guide::Strut { top, foot }
            }
        }
    }

    fn rack(&mut self, stand_in: Option<Rack>) -> Option<Rack> {
        let Some(text) = self.need("gear") else { return stand_in };
        if text == "none" {
            return None;
        }
        let (rest, mount) = match text.rsplit_once('_') {
            Some((rest, "subframe")) => (rest, Mount::Subframe),
            Some((rest, "body")) => (rest, Mount::Body),
            _ => {
                self.wrong("gear", &text, "none, or travel_perturn_ and subframe or body");
                return stand_in;
            }
        };
        let rest = rest.to_string();
        self.parse("gear", &rest).map_or(stand_in, |[travel, per_turn]| Some(Rack { travel, per_turn, mount }))
    }

    /// The spring; a broken one stands on the carrier above the wheel, where every axle can have one.
    fn spring(&mut self, lower: &Guide, upper: &Guide) -> Spring {
        let stand_in = (0..demos::DEMOS.len()).filter_map(demos::layout).find(|demo| {
            std::mem::discriminant(&demo.lower) == std::mem::discriminant(lower)
                && std::mem::discriminant(&demo.upper) == std::mem::discriminant(upper)
        });
        let stand_in = stand_in.map_or_else(
            || Spring {
                on: SpringOn::Carrier,
                top: Some(Vec3::new(0.0, 600.0, 700.0)),
                foot: Some(Vec3::new(0.0, 650.0, 300.0)),
                rate: 50.0,
                rocker: None,
            },
            |demo| demo.spring,
        );
        let Some(text) = self.need("spring") else { return stand_in };
        let (on, rest) = text.split_once('_').unwrap_or((&text, ""));
        let Some((on, _)) = SpringOn::ALL.into_iter().find(|(_, name)| *name == on) else {
            self.wrong("spring", &text, "a part it is mounted on, its rate and its two ends");
            return stand_in;
        };
        if on == SpringOn::Strut && !rest.contains('_') {
            return self.parse_within("spring", rest, MOST).map_or(stand_in, |[rate]| Spring {
                on,
                top: None,
                foot: None,
                rate,
                rocker: None,
            });
        }
        self.parse_within("spring", rest, MOST).map_or(stand_in, |[rate, a, b, c, d, e, f]| Spring {
            on,
            top: Some(Vec3::new(a, b, c)),
            foot: Some(Vec3::new(d, e, f)),
            rate,
            rocker: None,
        })
    }

    fn damper(&mut self) -> Option<Damper> {
        let text = self.take("damper")?;
        let [guide, piston, rod, friction] = self.parse("damper", &text)?;
        Some(Damper { guide, piston, rod, friction })
    }

    fn rocker(&mut self) -> Option<Rocker> {
        let text = self.take("rocker")?;
        let v: [f64; 12] = self.parse("rocker", &text)?;
        let point = |i: usize| Vec3::new(v[i], v[i + 1], v[i + 2]);
        Some(Rocker { pivot: point(0), axis: point(3), rod: point(6), spring: point(9) })
    }

    fn anti_roll_bar(&mut self) -> Option<AntiRollBar> {
        let text = self.take("bar")?;
        let on = text
            .split_once('_')
            .and_then(|(on, rest)| Some((SpringOn::ALL.into_iter().find(|(_, name)| *name == on)?.0, rest)));
        let Some((on, rest)) = on else {
            self.wrong("bar", &text, "a part the drop link is mounted on and eleven numbers");
            return None;
        };
        let v: [f64; 11] = self.parse_within("bar", rest, MOST)?;
        let point = |i: usize| Vec3::new(v[i], v[i + 1], v[i + 2]);
        let stiffness = Some(v[9]).filter(|stiffness| *stiffness > 0.0);
        Some(AntiRollBar { pivot: point(0), lever: point(3), link: point(6), on, stiffness, diameter: v[10] })
    }

    fn half_shaft(&mut self) -> Option<HalfShaft> {
        let text = self.take("shaft")?;
        let (v, right): ([f64; 6], Option<f64>) = if text.split('_').count() == 7 {
            let [a, b, c, d, e, f, right] = self.parse("shaft", &text)?;
            ([a, b, c, d, e, f], Some(right))
        } else {
            (self.parse("shaft", &text)?, None)
        };
        let (inner, outer) = (Vec3::new(v[0], v[1], v[2]), Vec3::new(v[3], v[4], v[5]));
        Some(HalfShaft { inner, outer, right_inner_y: right })
    }

    fn vehicle(&mut self) -> Option<Vehicle> {
        let text = self.take("car")?;
        let Some((drive, rest)) = text
            .split_once('_')
            .and_then(|(drive, rest)| Some((Drive::ALL.into_iter().find(|(_, name)| *name == drive)?.0, rest)))
        else {
            self.wrong("car", &text, "front, rear or all and twelve numbers");
            return None;
        };
        // Two more where they are not the defaults: the pneumatic trail and where the roll stiffness is from.
        let more = RollFrom::ALL
            .into_iter()
            .find_map(|(from, name)| Some((rest.strip_suffix(name)?.strip_suffix('_')?, from)));
        let (v, pneumatic_trail, roll_stiffness_from): ([f64; 12], _, _) = if let Some((numbers, from)) = more {
            let v: [f64; 13] = self.parse_within("car", numbers, MOST)?;
            (std::array::from_fn(|i| v[i]), v[12], from)
        } else {
            (self.parse_within("car", rest, MOST)?, 0.0, RollFrom::Numbers)
        };
        Some(Vehicle {
            wheelbase: v[0],
            mass: v[1],
            front_share: v[2],
            cg_height: v[3],
            brake_share: v[4],
            unsprung_mass: v[5],
            rear_roll_centre: v[6],
            roll_stiffness: v[7],
            roll_stiffness_share: v[8],
            steering_efficiency: v[9],
            width: v[10],
            front_overhang: v[11],
            drive,
            roll_stiffness_from,
            pneumatic_trail,
        })
    }

    /// Both wheels or one, and roll.
    pub(super) fn wheels(&mut self, text: &str) -> Option<(bool, f64)> {
        let (wheels, roll) = text.split_once('_').unwrap_or((text, "0"));
        let angle = roll.parse().ok().filter(|roll: &f64| roll.abs() <= ROLL);
        match (wheels, angle) {
            ("one" | "both", Some(roll)) => Some((wheels == "both", roll)),
            _ => {
                self.wrong("axle", text, &format!("one or both and a roll within ±{ROLL}°"));
                None
            }
        }
    }

    fn loads(&mut self) -> Option<Loads> {
        let text = self.need_since(2, "load")?;
        let parts: Vec<&str> = text.splitn(3, '_').collect();
        let (case, material, rest) =
            if let [case, material, rest] = parts[..] { (case, material, rest) } else { ("", "", "") };
        let (material, given) = material.strip_suffix("-given").map_or((material, false), |material| (material, true));
        let case = Case::all().find(|(_, name)| *name == case).map(|(case, _)| case);
        let material = Material::ALL.into_iter().find(|(_, name)| *name == material).map(|(material, _)| material);
        let (Some(case), Some(material)) = (case, material) else {
            self.wrong("load", &text, "a case, a material and ten numbers");
            return None;
        };
        let (v, own_torque): ([f64; 10], _) = if rest.split('_').count() == 11 {
            let v: [f64; 11] = self.parse_within("load", rest, 1e9)?;
            (std::array::from_fn(|i| v[i]), v[10])
        } else {
            (self.parse_within("load", rest, 1e9)?, 0.0)
        };
        let [a, b] = [v[6], v[7]];
        let section = if given { Section::Given { area: a, inertia: b } } else { Section::Tube { outer: a, wall: b } };
        let loads = Loads {
            case,
            material,
            section,
            own: std::array::from_fn(|i| v[i]),
            own_torque,
            stress: v[8],
            swing: v[9],
        };
        let problem = loads.problem();
        let sound = problem.is_none();
        self.faults.extend(problem);
        sound.then_some(loads)
    }

    fn locks(&mut self, document: &mut Document) {
        let text = self.need("locks").unwrap_or_default();
        for part in text.split('.').filter(|part| !part.is_empty()) {
            let (code, axes) = part.split_once('-').unwrap_or((part, "xyz"));
            let known = axes.chars().all(|axis| "xyz".contains(axis));
            match PointId::coded(code).filter(|_| known) {
                Some(id) => document.lock(id, ['x', 'y', 'z'].map(|axis| axes.contains(axis))),
                None => self.faults.push(format!("The link’s “locks” names “{}”, which is not a point.", clip(part))),
            }
        }
    }

    fn errors(&mut self, document: &mut Document) {
        let text = self.need_since(2, "errors").unwrap_or_default();
        let parts: Vec<&str> = text.split('_').filter(|part| !part.is_empty()).collect();
        for pair in parts.chunks(2) {
            let error = pair.get(1).and_then(|error| error.parse().ok()).filter(|e| (0.0..=MOST_ERROR).contains(e));
            match (PointId::coded(pair[0]), error) {
                (Some(id), Some(error)) => document.set_error(id, error),
                _ => self.faults.push(format!(
                    "The link’s “errors” has “{}”, not a point’s code and mm up to {MOST_ERROR}; it is left out.",
                    clip(&pair.join("_"))
                )),
            }
        }
    }

    fn pins(&mut self, stand_in: Vec<&'static str>) -> Vec<&'static str> {
        let Some(text) = self.need("pins") else { return stand_in };
        let mut pinned = Vec::new();
        for column in text.split('.').filter(|column| !column.is_empty()) {
            match Reading::named(column) {
                Some(reading) if pinned.len() < MOST_PINNED && !pinned.contains(&reading.column) => {
                    pinned.push(reading.column)
                }
                Some(_) => self.faults.push(format!(
                    "The link pins “{column}” twice or pins too many readings; at most {MOST_PINNED} different readings are pinned."
                )),
                None => self.faults.push(format!("The link pins “{}”, which is not a reading.", clip(column))),
            }
        }
        pinned
    }

    fn units(&mut self) -> Units {
        let Some(text) = self.need("units") else { return Units::default() };
        let pairs = [("mm", "in"), ("deg", "min"), ("wheel", "total")];
        let choice =
            |(word, (usual, other)): (&str, (&str, &str))| (word == usual || word == other).then_some(word == other);
        let chosen: Option<Vec<bool>> = text.split('.').zip(pairs).map(choice).collect();
        if let Some([inches, minutes, total_toe]) = chosen.as_deref() {
            return Units { inches: *inches, minutes: *minutes, total_toe: *total_toe };
        }
        self.wrong("units", &text, "mm or in, deg or min, wheel or total, joined by .");
        Units::default()
    }

    fn over(&mut self) -> Over {
        let Some(text) = self.need("over") else { return Over::default() };
        let over = Over::ALL.into_iter().find(|(_, name)| *name == text).map(|(over, _)| over);
        if over.is_none() {
            self.wrong("over", &text, "travel, upright, steering or roll");
        }
        over.unwrap_or_default()
    }

    pub(super) fn position(&mut self, key: &str, most: f64) -> f64 {
        let [value] = self.numbers(key).unwrap_or([0.0]);
        if value.abs() > most {
            self.faults.push(format!("The link’s “{key}” is {value} mm; this axle allows ±{most} mm; that is shown."));
        }
        value.clamp(-most, most)
    }
}
