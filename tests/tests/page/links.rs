//! Links: they carry everything, survive chat and forum software, and open for ever.

use kernel::{AntiRollBar, Damper, Drive, PointId, SpringOn, Stops, Vec3, Vehicle};
use web::content::demos::{DEMOS, layout};
use web::document::{Case, Document, Loads, Over};
use web::link::{read, write};

fn documents() -> impl Iterator<Item = Document> {
    (0..DEMOS.len()).map(|index| {
        let mut document = Document::of(layout(index).expect("a demo parses"));
        document.travel = 12.5;
        document.rack = if document.layout.rack.is_some() { -7.25 } else { 0.0 };
        document.set_ride(-15.0);
        document.lock(PointId::TrackRodOuter, [true, false, true]);
        document.lock(PointId::SpringTop, [true; 3]);
        document.set_error(PointId::TrackRodInner, 2.5);
        document.set_error(PointId::SpringTop, 1.0);
        document.loads = Loads { case: Case::Own, own: [-3000.0, 250.5, 4000.0, 0.0, 0.0, 100.0], ..Loads::default() };
        document.layout.anti_roll_bar = Some(AntiRollBar {
            pivot: Vec3::new(-200.0, 0.0, 200.0),
            lever: Vec3::new(-20.0, 480.0, 210.0),
            link: Vec3::new(0.0, 560.0, 190.5),
            on: SpringOn::Carrier,
            stiffness: None,
            diameter: 22.0,
        });
        if let Some(shaft) = &mut document.layout.half_shaft {
            shaft.right_inner_y = Some(-310.0);
        }
        document.layout.stops = Some(Stops { bump: 55.0, rebound: 62.5 });
        document.layout.damper = Some(Damper { guide: 150.0, ..Damper::default() });
        document.layout.vehicle = Some(Vehicle { mass: 1250.0, drive: Drive::All, ..Vehicle::default() });
        (document.whole, document.roll) = (true, -1.5);
        document.pinned = vec!["caster_deg", "motion_ratio"];
        document.over = Over::Steering;
        document.units.inches = true;
        document.units.total_toe = true;
        document
    })
}

#[test]
fn a_link_carries_the_whole_document() {
    for document in documents() {
        let (back, faults) = read(&write(&document)).expect("a link");
        assert_eq!(faults, Vec::<String>::new());
        assert_eq!(back, document);
    }
}

#[test]
fn the_same_parameters_open_after_a_question_mark() {
    for document in documents() {
        for sign in ["#", "?"] {
            assert_eq!(read(&format!("{sign}{}", write(&document))).expect("a link").0, document);
        }
    }
}

#[test]
fn links_are_short_plain_and_end_in_a_digit() {
    for document in documents() {
        let mut shipped = document.clone();
        (shipped.layout.damper, shipped.layout.vehicle, shipped.layout.anti_roll_bar) = (None, None, None);
        shipped.layout.stops = None;
        shipped.layout.half_shaft.iter_mut().for_each(|shaft| shaft.right_inner_y = None);
        let length = write(&shipped).len();
        assert!(length < 700, "{length} characters");
        let link = write(&document);
        assert!(link.len() < 900, "{} characters: {link}", link.len());
        assert!(link.bytes().all(|b| b.is_ascii_alphanumeric() || b"-_.~=&%".contains(&b)), "{link}");
        assert!(link.ends_with(|c: char| c.is_ascii_digit()), "{link}");
        assert!(link.starts_with("v=2&"), "{link}");
    }
}

/// What people pass on: a demo in any position, six readings pinned, behind an address of usual length.
#[test]
fn a_demo_fits_in_a_link_of_seven_hundred_characters() {
    for name in tests::DEMOS {
        let mut document = Document::of(tests::demo(name));
        document.travel = -23.45;
        document.set_ride(-10.5);
        document.rack = document.rack_travel() * -0.7531;
        (document.whole, document.roll) = (true, -2.53);
        let link = format!("https://someone.example.org/ghostpin/#{}", write(&document));
        assert!(link.len() < 700, "{name}: {} characters", link.len());
    }
}

#[test]
fn any_text_in_a_name_comes_back_as_text() {
    let mut document = documents().next().expect("a demo");
    for name in ["a_b  c_", "<img src=x onerror=alert(1)>", "a&b=c#d?e", "Größe 50 % ☂", "trailing dot.", "", "+ +"]
    {
        document.layout.name = name.into();
        let (back, faults) = read(&write(&document)).expect("a link");
        assert_eq!(back.layout.name, name);
        assert!(faults.is_empty(), "{faults:?}");
    }
}

/// Every parameter of every demo, mangled in turn in many ways: the rest opens, and a sentence names the parameter.
#[test]
fn a_mangled_parameter_is_named_and_the_rest_opens() {
    for document in documents() {
        let link = write(&document);
        let pairs: Vec<(&str, &str)> = link.split('&').map(|pair| pair.split_once('=').expect("a pair")).collect();
        for (i, &(key, value)) in pairs.iter().enumerate() {
            let texts = ["name", "note"].contains(&key);
            for mangled in ["", "x", "NaN", "1e999", "1_2", "inf_inf_inf", "%FF%00", "9e9_9e9_9e9_9e9_9e9_9e9", "1;2;3"]
            {
                let mut changed = pairs.clone();
                changed[i].1 = mangled;
                let text: Vec<String> = changed.iter().map(|(key, value)| format!("{key}={value}")).collect();
                let (back, faults) = read(&text.join("&")).expect("a link");
                let said = faults
                    .iter()
                    .any(|fault| fault.contains(&format!("“{key}”")) || key == "pins" && fault.contains("pins"));
                assert!(
                    said || texts
                        || (key, mangled) == ("stops", "1_2")
                        || (["pins", "locks", "errors"].contains(&key) && mangled.is_empty())
                        || key == "v",
                    "{key}={mangled}: {faults:?}"
                );
                assert!(faults.iter().all(|fault| fault.ends_with('.') && !fault.contains('\n')), "{faults:?}");
                if i != 4 && key != "note" {
                    assert_eq!(back.layout.note, document.layout.note, "{key}={value}");
                }
            }
            let without: Vec<String> = pairs
                .iter()
                .enumerate()
                .filter(|(j, _)| *j != i)
                .map(|(_, (key, value))| format!("{key}={value}"))
                .collect();
            let (_, faults) = read(&without.join("&")).expect("a link");
            let optional = ["damper", "bar", "shaft", "stops", "car"].contains(&key);
            assert!(optional || faults.iter().any(|fault| fault.contains(key)), "without {key}: {faults:?}");
        }
    }
}

#[test]
fn a_truncated_link_never_panics_and_says_what_is_missing() {
    for document in documents() {
        let link = write(&document);
        for end in 1..link.len() {
            let (_, faults) = read(&link[..end]).expect("a link");
            assert!(!faults.is_empty(), "cut at {end}");
        }
    }
}

/// What a file or a box may hold, a link carries: stiff springs and bars, heavy vehicles, long captions in any script.
#[test]
fn a_link_carries_whatever_can_be_put_into_the_page() {
    let mut document = documents().next().expect("a demo");
    document.layout.spring.rate = 1e6;
    if let Some(bar) = &mut document.layout.anti_roll_bar {
        bar.stiffness = Some(50_000.0);
    }
    document.layout.vehicle = Some(Vehicle { mass: 100_000.0, roll_stiffness: 2e5, ..Vehicle::default() });
    let shot = web::document::story::Shot::of(&document, None, "Ж".repeat(300));
    document.story = vec![shot; web::document::story::MOST_SHOTS];
    assert_eq!(kernel::validate(&document.layout), []);
    assert_eq!(read(&write(&document)), Some((document, Vec::new())));
}

/// Words that a file holds are one line without hidden signs, so that the link made of it is the same layout.
#[test]
fn a_file_and_its_link_hold_the_same_words() {
    let mut document = documents().next().expect("a demo");
    document.layout.name = "Nice\n1. of \u{202e}reversed\u{0} words\u{2028}".into();
    document.layout.note = "one\r\ntwo\tthree \u{2066}four\u{2069}".into();
    let file = kernel::Layout::from_json(&document.layout.to_json()).expect("a layout");
    assert_eq!((file.name.as_str(), file.note.as_str()), ("Nice 1. of reversed  words ", "one  two three four"));
    let dirty = read(&write(&document)).expect("a link");
    assert_eq!((&dirty.0.layout, dirty.1), (&file, Vec::new()));
    let clean = Document { layout: file, ..document };
    assert_eq!(read(&write(&clean)), Some((clean, Vec::new())));
}

#[test]
fn what_a_shot_or_a_lesson_says_wrongly_is_said() {
    let mut document = documents().next().expect("a demo");
    document.story = vec![web::document::story::Shot::of(&document, Some(PointId::SpringTop), "here".into())];
    document.lesson =
        Some(web::document::lesson::Lesson { task: "do".into(), begin: 7, words: true, ..Default::default() });
    let link = write(&document);
    for (from, to) in [("s0.at=spt", "s0.at=zzz"), ("&begin=7", "&begin=-1"), ("&words=1", "&words=NaN")] {
        assert!(link.contains(from), "{from}: {link}");
        let (_, faults) = read(&link.replace(from, to)).expect("a link");
        assert!(faults.len() == 1 && faults[0].contains("it is left out"), "{to}: {faults:?}");
    }
}

#[test]
fn unknown_double_and_endless_parameters_are_said() {
    let link = write(&documents().next().expect("a demo"));
    for (extra, word) in [("&colour=red", "colour"), ("&travel=3", "twice"), ("&%3Cb%3E=1", "<b>")] {
        let (_, faults) = read(&format!("{link}{extra}")).expect("a link");
        assert!(faults.iter().any(|fault| fault.contains(word)), "{faults:?}");
    }
    let (_, faults) = read(&"x".repeat(3_000_000)).expect("a link");
    assert!(faults[0].contains("3000000 characters"), "{faults:?}");
    assert_eq!(read("#v=2&embed=1"), Some((Document::of(layout(4).expect("the first demo")), Vec::new())));
    assert_eq!(read("#"), None);
    assert_eq!(read(""), None);
}

/// Links made by this version, kept for ever: each must open without a fault and show what it showed when it was made.
#[test]
fn old_links_open_for_ever() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/links");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).expect("the folder of old links") {
        let text = std::fs::read_to_string(entry.expect("a file").path()).expect("a text");
        for line in text.lines() {
            // The link, and the camber and caster it showed.
            let parts: Vec<&str> = line.split(' ').collect();
            let [link, camber, caster] = parts[..] else { panic!("{line}") };
            let (document, faults) = read(link).expect("a link");
            assert!(faults.is_empty(), "{faults:?}");
            let study = web::study::Study::new(&document, web::content::demos::opening);
            assert_eq!(study.trouble, None);
            let shows = |column| {
                let reading = kernel::Reading::named(column).expect("a reading");
                document.units.reading(study.good.value(reading), reading)
            };
            assert_eq!([shows("camber_deg"), shows("caster_deg")], [camber, caster], "{link}");
            count += 1;
        }
    }
    assert!(count >= DEMOS.len(), "only {count} old links");
}

/// Every reading can be pinned, and hidden by a lesson, in a link, by a name of its own.
#[test]
fn every_reading_can_be_named_in_a_link() {
    for reading in &kernel::READINGS {
        let mut document = documents().next().expect("a demo");
        document.pinned = vec![reading.column];
        let link = write(&document);
        assert!(link.contains(&format!("pins={}&", reading.short())), "{link}");
        let (again, faults) = read(&link).expect("a link");
        assert_eq!((again.pinned, faults), (vec![reading.column], Vec::new()));
    }
}

/// A link of this version is written as it was, to the letter; only aims, predictions and numbers of before they had a place or a unit say more now.
#[test]
fn links_are_written_as_they_were() {
    let fuller = ["aims", "predict", "number", "guess", "first"];
    let rest = |link: &str| {
        let pairs = link.split('&').filter(|pair| !fuller.iter().any(|name| pair.starts_with(&format!("{name}="))));
        pairs.map(String::from).collect::<Vec<_>>()
    };
    let links = include_str!("../../links/v2.txt").lines().filter_map(|line| line.split(' ').next());
    let mut same = 0;
    for link in links {
        let (document, _) = read(link).expect("a link");
        let again = write(&document);
        assert_eq!(rest(&again), rest(link));
        same += usize::from(again == link);
    }
    assert!(same >= 28, "only {same} links are the same to the letter");
}

/// Of two versions the first is used, as the sentence says: words keep their spaces.
#[test]
fn of_two_versions_the_first_is_used() {
    let document = documents().next().expect("a demo");
    let (back, faults) = read(&format!("{}&v=1", write(&document))).expect("a link");
    assert_eq!(faults, ["The link says “v” twice; the first is used."]);
    assert_eq!(back, document);
}
