//! The illustrated pages of help: every state they show or link to opens without a remark, and for ever; every number below a picture is the kernel's.

use kernel::{Axle, Demand, Group, LeftOrRight, Reading, Snapshot};
use std::collections::BTreeSet;
use std::rc::Rc;
use web::document::lesson::mark;
use web::document::{Document, Over};
use web::drawing::Theme;
use web::exchange::illustration::Illustration;
use web::link::read;
use web::study::Study;
use web::text::number::{Units, parse};

/// Every page's text, and the markup that stands in the page itself.
fn pages() -> Vec<String> {
    let mut all: Vec<String> = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../web/help"))
        .expect("the pages of help")
        .map(|entry| std::fs::read_to_string(entry.expect("a file").path()).expect("a text"))
        .collect();
    all.sort();
    assert_eq!(all.len(), 6);
    all
}

/// What an attribute says, wherever it is given.
fn attributes<'a>(text: &'a str, name: &str) -> Vec<&'a str> {
    let begin = format!(" {name}=\"");
    text.split(&begin).skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

/// State, what is drawn, what is told.
type Figure<'a> = [&'a str; 3];

fn figures(page: &str) -> Vec<Figure<'_>> {
    let [shows, draws, tells] = ["data-shows", "data-draws", "data-tells"].map(|name| attributes(page, name));
    assert!(shows.len() == draws.len() && shows.len() == tells.len(), "a figure says only a part");
    assert!((3..=6).contains(&shows.len()), "{} pictures", shows.len());
    (0..shows.len()).map(|at| [shows[at], draws[at], tells[at]]).collect()
}

fn linked(page: &str) -> impl Iterator<Item = &str> {
    attributes(page, "href").into_iter().filter_map(|link| link.strip_prefix("#v="))
}

/// Every state of every page.
fn states(pages: &[String]) -> BTreeSet<String> {
    let shown = pages.iter().flat_map(|page| figures(page)).map(|[shows, ..]| shows.to_string());
    shown.chain(pages.iter().flat_map(|page| linked(page)).map(|rest| format!("v={rest}"))).collect()
}

#[test]
fn every_state_of_help_opens_without_a_remark() {
    let pages = pages();
    for state in states(&pages) {
        let (document, faults) = read(&state).expect("a link");
        assert_eq!(faults, Vec::<String>::new(), "{state}");
        let study = Study::new(&document, web::content::demos::opening);
        assert_eq!(study.trouble, None, "{state}");
        if let Some(lesson) = &document.lesson {
            assert_eq!(lesson.begin, mark(&document.layout), "an untouched exercise is known by its mark: {state}");
        }
    }
    assert!(states(&pages).len() > 20);
}

/// What help has opened once is posted and opened for ever: each state stands among the links that are kept.
#[test]
fn states_of_help_are_kept_links() {
    let kept = include_str!("../../links/help.txt");
    let shows = |document: &Document, study: &Study| {
        ["camber_deg", "caster_deg"].map(|column| {
            let reading = Reading::named(column).expect("a reading");
            document.units.reading(study.good.value(reading), reading)
        })
    };
    let mut missing = String::new();
    for state in states(&pages()) {
        let (document, _) = read(&state).expect("a link");
        let [camber, caster] = shows(&document, &Study::new(&document, web::content::demos::opening));
        let line = format!("{state} {camber} {caster}\n");
        if !kept.contains(&line) {
            missing += &line;
        }
    }
    assert!(missing.is_empty(), "tests/links/help.txt has not:\n{missing}");
}

/// The axle of a state, solved without the page.
fn told_by_the_kernel(document: &Document, reading: &Reading) -> Option<f64> {
    let side = if document.whole { LeftOrRight::Left } else { document.side };
    let axle = Rc::new(Axle::new(&document.layout).expect("an axle").looking_at(side));
    let state = axle.state(Demand::new(document.travel, document.rack)).expect("a pose");
    (reading.value)(&Snapshot::level(&axle, &state))
}

#[test]
fn every_number_of_help_is_the_kernels() {
    let pages = pages();
    let other = Units { inches: true, minutes: true, total_toe: true };
    let mut hidden = 0;
    for [shows, draws, tells] in pages.iter().flat_map(|page| figures(page)) {
        let (document, _) = read(shows).expect("a link");
        assert!(document.roll == 0.0, "solved here without roll");
        for units in [Units::default(), other] {
            let made = Illustration::read(shows, draws, tells, units).expect(shows);
            let numbers: Vec<_> = made.numbers().collect();
            assert_eq!(numbers.len(), tells.split_whitespace().count());
            assert!(!numbers.is_empty());
            for (number, name) in numbers.iter().zip(tells.split_whitespace()) {
                let reading = Reading::named(name).expect(name);
                let hides = |lesson: &web::document::lesson::Lesson| lesson.hides(&document.answer, reading.column);
                if document.lesson.as_ref().is_some_and(hides) {
                    assert_eq!(number.value, "?");
                    hidden += 1;
                    continue;
                }
                let value = told_by_the_kernel(&document, reading);
                assert!(value.is_some_and(f64::is_finite), "{name}: {value:?} in {shows}");
                assert_eq!(number.value, units.with_unit(value, reading), "{name} in {shows}");
                let digits = number.value.trim_end_matches(|c: char| !c.is_ascii_digit()).split(['°', '′', ' ']).next();
                assert!(digits.and_then(parse).is_some(), "{name}: {}", number.value);
                let compared = document.compared.as_ref().filter(|_| reading.group != Group::Position);
                let laid_over = compared.and_then(|layout| {
                    let value = told_by_the_kernel(&Document { layout: layout.clone(), ..document.clone() }, reading);
                    value.map(|value| units.with_unit(Some(value), reading))
                });
                assert_eq!(number.laid_over, laid_over, "{name} in {shows}");
            }
            let svg = made.svg(Theme::LIGHT, "x1");
            assert!(!svg.contains("NaN") && !svg.contains("id=\"c") && !svg.contains("url(#c"), "{shows}");
            assert_eq!(svg.matches("<clipPath").count(), svg.matches("url(#x1c").count(), "{shows}");
            let (opened, faults) = read(&made.link(shows)).expect("a link");
            assert_eq!((opened.units, faults), (units, Vec::new()), "{shows}");
            assert_eq!(opened.layout, document.layout, "{shows}");
        }
    }
    assert_eq!(hidden, 2, "a hidden reading is shown as hidden, in either unit");
}

#[test]
fn what_is_wrong_with_a_picture_is_a_sentence() {
    let read = |shows, draws, tells| Illustration::read(shows, draws, tells, Units::default()).err();
    assert_eq!(read("v=3&of=strut.1&end=1", "front", "caster"), None);
    for (shows, draws, tells) in [
        ("", "front", "caster"),
        ("v=3&of=nothing.1&end=1", "front", "caster"),
        ("v=3&of=strut.1&end=1", "behind", "caster"),
        ("v=3&of=strut.1&end=1", "front", "castor"),
        ("v=3&of=five-rod-unsteered.1&end=1", "caster", "camber"),
    ] {
        assert!(read(shows, draws, tells).is_some(), "{shows} {draws} {tells}");
    }
}

/// A curve's name says what it runs over.
#[test]
fn curves_of_help_run_over_what_their_names_say() {
    for [shows, draws, tells] in pages().iter().flat_map(|page| figures(page)) {
        let made = Illustration::read(shows, draws, tells, Units::default()).expect(shows);
        if made.is_curve() {
            let over = read(shows).expect("a link").0.over;
            let word = if over == Over::Steering { "over rack" } else { "over travel" };
            assert!(made.name().ends_with(word), "{}", made.name());
        }
    }
}

/// Whatever leads to a page of help leads to one that is there.
#[test]
fn every_page_of_help_is_named_and_found() {
    let pages = pages();
    let ids: Vec<&str> = pages.iter().flat_map(|page| attributes(page, "id")).collect();
    let contents = include_str!("../../../web/parts/help.html");
    let parts = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../web/parts")).expect("the parts");
    let parts = parts.map(|entry| std::fs::read_to_string(entry.expect("a file").path()).expect("a text"));
    for text in parts.chain(pages.clone()) {
        for name in attributes(&text, "href").into_iter().filter_map(|link| link.strip_prefix("#help=")) {
            let found = name == "start" || ids.contains(&format!("help-{name}").as_str());
            assert!(found, "there is no page “{name}”");
        }
    }
    for id in ids {
        let name = id.strip_prefix("help-").expect("an id of a page");
        assert!(contents.contains(&format!("href=\"#help={name}\"")), "{name} is not in the contents");
    }
}

/// Text without its tags.
fn words(page: &str) -> Vec<String> {
    let text: String = page.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| text).collect();
    text.split_whitespace().map(|word| word.to_lowercase()).collect()
}

/// A page is read in one go, promises nothing, and names where its facts come from.
#[test]
fn pages_of_help_are_short_and_promise_nothing() {
    for page in pages() {
        let words = words(&page);
        assert!((500..=900).contains(&words.len()), "{} words: {}", words.len(), &page[..60]);
        for never in ["safe", "safely", "safety", "legal", "legally"] {
            assert!(!words.iter().any(|word| word.trim_matches(|c: char| !c.is_alphabetic()) == never), "{never}");
        }
        assert!(page.contains("class=\"source\"") && !page.contains("style="));
    }
}
