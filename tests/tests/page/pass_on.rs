//! What is passed on: pictures, tables, posts, DXF, QR codes.

use kernel::{PointId, Reading, Vec3};
use web::app::{About, App, Point};
use web::content::demos::{DEMOS, layout};
use web::document::Document;
use web::drawing::svg::svg;
use web::drawing::{Area, Arrangement, Item, Theme, Turn};
use web::exchange::code::{MOST_QR, qr};
use web::exchange::picture::picture;
use web::exchange::post::{Markup, post, reply, snippet};
use web::exchange::tables::{curves_csv, dxf, for_spreadsheet, points_csv};
use web::link::write;
use web::text::caution::{CAUTION, STUDY};

fn apps() -> impl Iterator<Item = App> {
    (0..DEMOS.len()).map(|index| App::new(Document::of(layout(index).expect("a demo")), Vec::new()))
}

fn link(app: &App) -> String {
    format!("https://example.org/ghostpin/#{}", write(&app.document))
}

/// The markup, which stands without the program too, has the caution in the program's words wherever it has it.
#[test]
fn the_page_and_the_program_share_their_caution() {
    let markup = tests::markup();
    let begins = STUDY.split_whitespace().take(3).collect::<Vec<_>>().join(" ");
    let places: Vec<_> = markup.match_indices(&begins).map(|(at, _)| &markup[at..]).collect();
    assert!(places.iter().all(|place| place.starts_with(STUDY)), "{begins} … goes on otherwise");
    assert_eq!(places.iter().filter(|place| place.starts_with(CAUTION)).count(), 2, "sheet and print");
    assert_eq!(places.len(), 3, "and the foot of an embedded page");
}

/// A picture says what it is: name, readings and their curves, unit, sign rule, caution, and the link, as a code or, where it is too long for one,
/// in letters.
#[test]
fn a_picture_can_be_understood_alone() {
    for app in apps() {
        let (scene, link) = (picture(&app, &link(&app), None), link(&app));
        // The view in space stands beside all that, where it is shown.
        let seen = Arrangement::Pictorial { turn: Turn::DIMETRIC, tyre: true };
        let wide = picture(&app, &link, Some(seen));
        assert!(wide.size[0] > scene.size[0] + 400.0 && wide.size[1] == scene.size[1]);
        let drawing = svg(&wide, Theme::LIGHT);
        assert!(drawing.contains(">Pictorial view<") && drawing.contains(">dimetric, from ahead, inboard and above<"));
        assert!(!svg(&scene, Theme::LIGHT).contains(">Pictorial view<"));
        let beside = wide.items.iter().filter(|item| {
            matches!(item, Item::Clip { area: Area::Rect { min, max }, .. } if min[0] >= scene.size[0] && max[0] <= wide.size[0])
        });
        assert_eq!(beside.count(), 1, "in its own place");
        let texts: Vec<&str> = scene
            .items
            .iter()
            .filter_map(|item| if let Item::Text(text) = item { Some(text.text.as_str()) } else { None })
            .collect();
        let all = texts.join("");
        assert!(all.contains(&app.document.layout.name) && all.contains("Camber −"), "{all}");
        assert!(all.replace(' ', "").contains(&CAUTION.replace(' ', "")) && all.contains("ISO 8855"), "{all}");
        assert_eq!(all.contains(&link), qr(&link).is_none(), "as a code or in letters");
        assert!(all.contains("over travel"), "a curve");
        assert!(!svg(&scene, Theme::LIGHT).contains("NaN"));
    }
}

#[test]
fn tables_are_the_command_lines() {
    for app in apps() {
        let csv = curves_csv(&app);
        let rows: Vec<Vec<&str>> = csv.lines().map(|line| line.split(',').collect()).collect();
        assert_eq!((rows.len(), rows[0][0], rows[1][0], rows[61][0]), (62, "travel_mm", "-60", "60"));
        assert!(rows.iter().all(|row| row.len() == rows[0].len()));
        let points = points_csv(&app.document.layout);
        assert_eq!(points.lines().count(), app.document.layout.points().count() + 1);
        assert!(points.contains("\"track rod, inner joint\","), "{points}");
    }
}

/// Beside an axle laid over, the table has its columns behind, at the same travels; for a spreadsheet numbers have eight digits, and columns are apart by
/// semicolons where it has a decimal comma.
#[test]
fn a_table_has_the_axle_laid_over_and_suits_a_spreadsheet() {
    let alone = App::new(Document::of(layout(0).expect("a demo")), Vec::new());
    let mut document = Document::of(layout(0).expect("a demo"));
    document.compared = layout(4);
    let both = App::new(document, Vec::new());
    let rows = |csv: &str, apart: char| -> Vec<Vec<String>> {
        csv.lines().map(|line| line.split(apart).map(String::from).collect()).collect()
    };
    let (one, two) = (rows(&curves_csv(&alone), ','), rows(&curves_csv(&both), ','));
    let other = rows(&curves_csv(&App::new(Document::of(layout(4).expect("a demo")), Vec::new())), ',');
    let at = |rows: &[Vec<String>], name: &str| rows[0].iter().position(|head| head == name).expect("a column");
    let (own, beside) = (at(&other, "toe_deg"), at(&two, "toe_deg_compared"));
    for i in 0..one.len() {
        assert_eq!(two[i][..one[i].len()], one[i]);
        assert!(i == 0 || two[i][beside] == other[i][own]);
    }
    let spread = rows(&for_spreadsheet(&curves_csv(&both), true), ';');
    assert_eq!((spread.len(), spread[0].len()), (two.len(), two[0].len()));
    for (short, long) in spread[1..].iter().zip(&two[1..]).flat_map(|(a, b)| a.iter().zip(b)) {
        let significant = short.trim_start_matches(['-', '0', ',']);
        assert!(significant.bytes().filter(u8::is_ascii_digit).count() <= 8 && !short.contains('.'), "{short}");
        if let (Ok(short), Ok(long)) = (short.replace(',', ".").parse::<f64>(), long.parse::<f64>()) {
            assert!((short - long).abs() <= 1e-7 * long.abs() + 1e-12, "{short} {long}");
        }
    }
    let points = for_spreadsheet(&points_csv(&alone.document.layout), true);
    assert!(points.contains("\"track rod, inner joint\";") && !points.contains('.'), "{points}");
}

/// A post carries the pinned readings and a link that opens in the same state; a name is text in each markup.
#[test]
fn a_post_carries_readings_and_link() {
    let mut app = apps().next().expect("a demo");
    app.update(About::Rename("A [b]bold[/b] *name*".into()));
    let link = link(&app);
    for markup in [Markup::Plain, Markup::Markdown, Markup::BbCode] {
        let text = post(&app, &link, markup);
        assert!(text.contains("Scrub radius −8.0 mm") && text.contains(&link), "{text}");
    }
    assert!(post(&app, &link, Markup::Markdown).contains(r"\[b\]bold\[/b\] \*name\*"));
    assert!(!post(&app, &link, Markup::BbCode).contains("[b]bold"));
    assert!(
        snippet(&link).contains("&amp;embed=1\"")
            && snippet(&link).starts_with("<iframe src=\"https://example.org/ghostpin/#v=2&amp;")
    );
}

/// Once the axle has been changed a post tells both: each reading as opened and now with their difference, and the joint that was moved. The numbers
/// are those that the page shows for either axle alone.
#[test]
fn a_post_tells_before_and_after() {
    let mut app = apps().next().expect("a demo");
    let link = link(&app);
    let scrub = |app: &App| app.told_now(Reading::named("scrub_radius_mm").expect("a reading"));
    let (opened, before) = (app.document.layout.clone(), scrub(&app));
    assert!(!post(&app, &link, Markup::Plain).contains('→') && reply(&app).is_none(), "nothing has been changed");
    let joint = opened.point(PointId::LowerOuter).expect("a ball joint");
    app.update(Point::Move(PointId::LowerOuter, joint - Vec3::y() * 8.0));
    let text = post(&app, &link, Markup::Plain);
    let now = scrub(&app);
    assert!(before != now && text.contains(&format!("Scrub radius {before} mm → {now} mm (")), "{text}");
    let moved = format!("lower ball joint y {:.1} → {:.1} mm", joint.y, joint.y - 8.0);
    assert!(text.contains(&moved) && text.contains("as opened → now"), "{text}");
    assert!(post(&app, &link, Markup::Markdown).contains("as opened → now"));
    // The reply lays the present axle over what was opened, and opens so.
    let answer = reply(&app).expect("changed");
    let (read, faults) = web::link::read(&write(&answer)).expect("a link");
    assert!(faults.is_empty(), "{faults:?}");
    assert_eq!((read.layout, read.compared), (app.document.layout.clone(), Some(opened)));
    // Laid over by hand, that axle is what is told against, by its name.
    app.update(About::Compare(layout(4).map(Box::new)));
    let text = post(&app, &link, Markup::Plain);
    assert!(text.contains(&format!("{} → now", layout(4).expect("a demo").name)), "{text}");
    assert!(!svg(&picture(&app, &link, None), Theme::LIGHT).contains("NaN"));
}

/// DXF as its own format has it: pairs of a code and a value, a point a joint, a line a member.
#[test]
fn dxf_has_a_point_a_joint() {
    for app in apps() {
        let text = dxf(&app);
        let lines: Vec<&str> = text.lines().collect();
        assert!(lines.len().is_multiple_of(2) && text.ends_with("0\nEOF\n"));
        assert!(lines.iter().step_by(2).all(|code| code.parse::<u16>().is_ok()), "group codes");
        let count = |entity: &str| lines.chunks(2).filter(|pair| pair == &["0", entity]).count();
        assert_eq!(count("POINT"), app.document.layout.points().count());
        assert!(count("LINE") >= 4);
    }
}

/// Every demo's link has a QR code of dark modules in a quiet zone; a very long one has none.
#[test]
fn links_have_qr_codes() {
    for app in apps() {
        let scene = qr(&link(&app)).expect("short enough");
        assert!(scene.size[0] > 4.0 * 29.0 && scene.size[0] == scene.size[1]);
        let Item::Path { steps, .. } = &scene.items[1] else { panic!("the modules") };
        assert!(steps.len() > 5 * 1000);
    }
    assert!(qr(&"x".repeat(MOST_QR + 1)).is_none());
}
