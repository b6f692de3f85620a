//! What holds of every reader of text, whatever it is given: it never panics, what it reads is sound and is written and read again alike, what it refuses is
//! refused in sentences. Shared by `fuzz.rs` and by the coverage-guided fuzzer in `tests/fuzz`.

use kernel::{Layout, LeftOrRight, READINGS, TyreSize, Unit};
use web::content::demos::{DEMOS, first, layout, lowered, opening};
use web::content::exercises;
use web::document::tapes::Tapes;
use web::document::{Document, Papers};
use web::exchange::{block, drafts};
use web::link;
use web::study::Study;
use web::text::number::{self, Units};
use web::text::printout::Scale;
use web::text::typed::Kind;
use web::work::{Work, hand_ins, influence, outlines, space};

/// A reader and what holds of it.
pub type Reader = fn(&str);

/// Every reader of text, and what it is made to read, some further links among it.
pub fn sound(further: impl IntoIterator<Item = String>) -> [(Reader, Vec<String>); 8] {
    let layouts: Vec<Layout> = (0..DEMOS.len()).filter_map(layout).collect();
    let mut both = Document::of(first());
    (both.compared, both.whole, both.roll) = (layout(0), true, 1.5);
    both.beside = layout(1).into_iter().collect();
    let demos = layouts.iter().cloned().map(Document::of);
    let documents = demos.chain(lowered().into_iter().map(|(_, document)| document)).chain([both]);
    let lessons = exercises::all().into_iter().map(|exercise| exercise.document);
    let written = documents.chain(lessons).map(|document| link::write(&document));
    let links: Vec<String> = written.chain(further).collect();
    let texts = |texts: &[&str]| texts.iter().map(|text| (*text).into()).collect();
    [
        (kept, texts(&["1764000000000 v=2&travel=3\n1763000000000 v=2&rack=1\n"])),
        (pasted, vec![block::write(&first())]),
        (one_task, tasks(&layouts, &links)),
        (papers, texts(&[r#"{"tapes": "upper.outer lower.outer 300", "alignment": {}, "goal": {}, "fitting": {}}"#])),
        (tapes, texts(&["LBJ UBJ 300 1\nLBJ z 180\nTRO, TRI, 412,5\n"])),
        (typed, texts(&["-3,5 in", "1°20′", "+0.5 mm/m", "225/45 ZR17 91W"])),
        (one_file, layouts.iter().map(Layout::to_json).collect()),
        (one_link, links),
    ]
}

/// Tasks of all kinds of long work.
fn tasks(layouts: &[Layout], links: &[String]) -> Vec<String> {
    let errors = r#"{"kind": "build", "distribution": "normal", "travel": 0, "points": {"track_rod.outer": 1}}"#;
    let aims = r#"{"starts": 2, "free": [{"parameter": "track_rod.outer.z", "range": [250, 300]}], "aims": [{"reading": "toe_deg", "travel": 30, "value": 0.1, "tolerance": 0.1}]}"#;
    let values = r#"[{"reading": "toe_deg", "travel": 20, "rack": 0, "value": 0.1, "error": 0.05}]"#;
    let of = |layout: &Layout| {
        let file = layout.to_json();
        [
            hand_ins::task(&links.join("\n")),
            influence::task(layout, LeftOrRight::Right),
            space::task(layout, LeftOrRight::Left),
            outlines::task(layout, LeftOrRight::Left, 0.0),
            format!("spread\n50 left camber_deg,toe_deg\n{errors}\n{file}"),
            format!("goals\n{aims}\n{file}"),
            format!("fit\n{{\"values\": {values}, \"errors\": {errors}}}\n{file}"),
            format!("explain\n{{\"values\": {values}}}\n{file}"),
            format!("turn\nboth toe_deg=0.2 camber_deg=-1\n{file}"),
            format!("margins\nleft design normal 0 0 60 tro=1\ncamber_deg toe_deg\n{file}"),
        ]
    };
    layouts.iter().flat_map(of).collect()
}

fn sentences(said: &[String]) {
    assert!(said.iter().all(|sentence| sentence.ends_with('.')), "{said:?}");
}

/// A link: it is read into a document like any other, whose own link is sound and opens to the same, to the digits a link has.
pub fn one_link(text: &str) {
    let Some((document, faults)) = link::read(text) else { return };
    sentences(&faults);
    let study = Study::new(&document, opening);
    for reading in &READINGS {
        assert!(study.good.value(reading).is_none_or(f64::is_finite), "{} of {text}", reading.column);
    }
    let own = link::write(&document);
    let (again, faults) = link::read(&own).expect("a link");
    assert_eq!(faults, Vec::<String>::new(), "{own}");
    assert_eq!(link::write(&again), own);
}

/// A file of a layout.
pub fn one_file(text: &str) {
    match Layout::from_json(text) {
        Err(sentence) => sentences(&[sentence]),
        Ok(layout) if kernel::validate(&layout).is_empty() => drop(Study::new(&Document::of(layout), opening)),
        Ok(_) => {}
    }
}

/// What the browser keeps.
pub fn kept(text: &str) {
    drop(drafts::read(text));
}

/// A block of a spreadsheet, whole or, every other length, from some cell on.
pub fn pasted(text: &str) {
    let points = first();
    let length = text.len();
    let from = (length % 2 == 1).then_some((length / 2 % 20, length % 4));
    match block::read(text, &points, &Default::default(), from) {
        Err(sentence) => sentences(&[sentence]),
        Ok(block) => sentences(&block.wrong),
    }
}

/// A task of long work: refused, or its first piece is done.
pub fn one_task(task: &str) {
    match Work::start(task) {
        Err(sentence) => sentences(&[sentence]),
        Ok(mut work) => {
            let mut left = 0..1;
            drop(work.slice(|| left.next().is_some()));
        }
    }
}

/// The papers of a link: measures, alignment, goals, fit.
pub fn papers(text: &str) {
    if let Err(sentence) = Papers::read(text) {
        sentences(&[sentence]);
    }
}

/// Lengths taken with a tape.
pub fn tapes(text: &str) {
    sentences(&Tapes::read(text, &first()).wrong);
}

/// What is typed into boxes: a number, one with a unit, an angle of a printout, a tyre's size.
pub fn typed(text: &str) {
    let all = Units { inches: true, minutes: true, total_toe: true };
    let scales = [Scale::Degrees, Scale::Minutes, Scale::Rim(400.0), Scale::Length(all)];
    let with_unit = [Unit::Millimetre, Unit::Degree, Unit::NewtonMetre].map(|unit| Kind::of(unit).read(text, all));
    let read = scales.map(|scale| scale.read(text)).into_iter().chain(with_unit);
    assert!(read.chain([number::parse(text)]).flatten().all(f64::is_finite), "{text}");
    if let Some(size) = TyreSize::parse(text) {
        assert_eq!(TyreSize::parse(&size.to_string()), Some(size), "{text}");
    }
}
