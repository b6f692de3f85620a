//! A lesson: what is to be done on the axle. Whoever writes the link of a lesson in preparation seals it.

use super::parameter::Parameter;
use super::points::AXES;
use super::reader::Reader;
use super::readings::{self, short};
use super::topic::Topic;
use super::writer::{Writer, numbers};
use crate::document::Document;
use crate::document::lesson::{Aim, Freed, Lesson, MOST_VARIED, Number, Prediction, mark};
use crate::document::place::Place;
use crate::text::number::plain;
use crate::text::typed::CODES;
use kernel::{LIMIT, LONGEST_NOTE, PointId, Reading, Unit, clip};

/// Text, of several lines maybe: what is to be done. A link without it has no lesson.
const TASK: Parameter = Parameter::needed("task");

/// Text, of several lines maybe.
const HINT: Parameter = Parameter::needed("hint");

/// Readings hidden until an answer is checked.
const HIDE: Parameter = Parameter::optional("hide");

/// What may be moved: `tro-z_least_most`, joined by `~`.
const FREE: Parameter = Parameter::optional("free");

/// What is to be reached: reading`~`value`_`tolerance`_`travel`_`rack`_`roll where it is judged, joined by `~`. Aims of before they had a place
/// are judged where the link's axle is.
const AIMS: Parameter = Parameter::optional("aims");

/// A mark of the layout it begins with.
const BEGIN: Parameter = Parameter::optional("begin");

/// The number asked for and its tolerance; unless it is a plain one`~`its unit.
const NUMBER: Parameter = Parameter::optional("number");

/// The reading whose change is to be predicted`~`its value at the start`_`the start's travel`_`rack`_`roll; of before it had a place, as with aims.
const PREDICT: Parameter = Parameter::optional("predict");

/// 1: words are asked for.
const WORDS: Parameter = Parameter::optional("words");

/// How far each student's start varies, mm.
const VARY: Parameter = Parameter::optional("vary");

/// Read last: older lessons mean where the link's axle is.
pub const TOPIC: Topic<Document> = Topic::last(
    |document, link| {
        if let Some(lesson) = &document.lesson {
            write(lesson, document, link);
        }
    },
    |link, document| document.lesson = link.has(TASK).then(|| read(link, Place::of(document))),
);

/// More of anything in a lesson than this is no lesson.
const MOST: usize = 20;

/// A reading's numbers are all within this, in whatever unit.
const LARGEST: f64 = 1e7;

fn write(lesson: &Lesson, document: &Document, link: &mut Writer) {
    let join = |parts: Vec<String>| parts.join("~");
    link.text(TASK, &lesson.task);
    link.text(HINT, &lesson.hint);
    link.put(HIDE, readings::write(&lesson.hidden));
    link.put(FREE, join(lesson.free.iter().map(write_free).collect()));
    link.put(AIMS, join(lesson.aims.iter().map(write_aim).collect()));
    link.put(BEGIN, if lesson.sealed() { lesson.begin } else { mark(&document.layout) }.to_string());
    link.put_if(NUMBER, lesson.number.map(write_number));
    link.put_if(PREDICT, lesson.predict.map(|p| format!("{}~{}", short(p.column), write_placed(&[p.before], p.place))));
    link.flag(WORDS, lesson.words);
    link.put_if(VARY, (lesson.vary != 0.0).then(|| plain(lesson.vary)));
}

/// `start` is where the link's axle is.
fn read(link: &mut Reader, start: Place) -> Lesson {
    Lesson {
        task: link.lines(TASK, LONGEST_NOTE).unwrap_or_default(),
        hint: link.lines(HINT, LONGEST_NOTE).unwrap_or_default(),
        hidden: readings::read(link, HIDE),
        free: read_free(link),
        aims: read_aims(link, start),
        number: read_number(link),
        predict: read_prediction(link, start),
        words: link.flag(WORDS),
        vary: read_varied(link),
        begin: read_begin(link),
    }
}

/// Numbers and the place behind them.
fn write_placed(values: &[f64], place: Place) -> String {
    numbers(&[values, &[place.travel, place.rack, place.roll]].concat())
}

/// `N` numbers joined by `_` and, since aims and predictions have one, the place behind them; else the one where the link's axle is.
fn read_placed<const N: usize>(text: &str, start: Place) -> Option<([f64; N], Place)> {
    let numbers: Vec<f64> = text.split('_').map(|part| part.parse().ok()).collect::<Option<_>>()?;
    let sound = numbers.iter().all(|number: &f64| number.abs() <= LARGEST);
    let (values, place) = numbers.split_at_checked(N).filter(|_| sound)?;
    let place = match place {
        [] => start,
        [travel, rack, roll] => Place { travel: *travel, rack: *rack, roll: *roll },
        _ => return None,
    };
    Some((values.try_into().ok()?, place))
}

fn write_free(free: &Freed) -> String {
    format!("{}-{}_{}", free.point.code(), AXES[free.axis.min(2)], numbers(&free.range))
}

fn read_free(link: &mut Reader) -> Vec<Freed> {
    let text = link.take(FREE).unwrap_or_default();
    let mut all = Vec::new();
    for part in text.split('~').filter(|part| !part.is_empty()).take(MOST) {
        let free = part.split_once('_').and_then(|(place, range)| {
            let (code, axis) = place.split_once('-')?;
            let (least, most) = range.split_once('_')?;
            let axis = AXES.iter().position(|name| axis == name.to_string())?;
            let range = [least.parse().ok()?, most.parse().ok()?];
            let sound = range[0] <= range[1] && range.iter().all(|mm: &f64| mm.abs() <= LIMIT);
            Some(Freed { point: PointId::coded(code)?, axis, range }).filter(|_| sound)
        });
        match free {
            Some(free) => all.push(free),
            None => {
                let (key, part) = (FREE.name, clip(part));
                link.faults.push(format!("The link’s “{key}” has “{part}”, which is not a coordinate and range."));
            }
        }
    }
    all
}

fn write_aim(aim: &Aim) -> String {
    format!("{}~{}", short(aim.column), write_placed(&[aim.value, aim.tolerance], aim.place))
}

fn read_aims(link: &mut Reader, start: Place) -> Vec<Aim> {
    let text = link.take(AIMS).unwrap_or_default();
    let parts: Vec<&str> = text.split('~').filter(|part| !part.is_empty()).take(2 * MOST).collect();
    let mut all = Vec::new();
    for pair in parts.chunks(2) {
        let aim = pair.get(1).and_then(|numbers| {
            let ([value, tolerance], place) = read_placed(numbers, start)?;
            Some(Aim { column: Reading::named(pair[0])?.column, value, tolerance, place })
        });
        match aim.filter(|aim| aim.tolerance >= 0.0) {
            Some(aim) => all.push(aim),
            None => {
                let (key, pair) = (AIMS.name, clip(&pair.join("~")));
                link.faults.push(format!(
                    "The link’s “{key}” has “{pair}”, not a reading, a value, a tolerance and where it is judged."
                ));
            }
        }
    }
    all
}

fn write_number(number: Number) -> String {
    let values = numbers(&[number.value, number.tolerance]);
    match CODES.iter().find(|(unit, _)| *unit == number.unit && *unit != Unit::One) {
        Some((_, code)) => format!("{values}~{code}"),
        None => values,
    }
}

fn read_number(link: &mut Reader) -> Option<Number> {
    let text = link.take(NUMBER)?;
    let (numbers, code) = text.split_once('~').unwrap_or((&text, "one"));
    let Some((unit, _)) = CODES.iter().find(|(_, name)| *name == code) else {
        link.wrong(NUMBER, &text, "a number, its tolerance and a unit");
        return None;
    };
    let [value, tolerance] = link.parse(NUMBER, numbers, LARGEST)?;
    Some(Number { value, tolerance, unit: *unit })
}

fn read_prediction(link: &mut Reader, start: Place) -> Option<Prediction> {
    let text = link.take(PREDICT)?;
    let prediction = text.split_once('~').and_then(|(name, numbers)| {
        let ([before], place) = read_placed(numbers, start)?;
        Some(Prediction { column: Reading::named(name)?.column, before, place })
    });
    if prediction.is_none() {
        link.wrong(PREDICT, &text, "a reading, its value and where it is read");
    }
    prediction
}

fn read_varied(link: &mut Reader) -> f64 {
    let Some(text) = link.take(VARY) else { return 0.0 };
    text.parse().ok().filter(|mm| (0.0..=MOST_VARIED).contains(mm)).unwrap_or_else(|| {
        link.wrong(VARY, &text, &format!("mm up to {MOST_VARIED}"));
        0.0
    })
}

/// Without a mark every layout counts as changed.
fn read_begin(link: &mut Reader) -> u32 {
    let Some(text) = link.take(BEGIN) else { return 1 };
    text.parse().unwrap_or_else(|_| {
        link.wrong(BEGIN, &text, "a mark");
        1
    })
}
