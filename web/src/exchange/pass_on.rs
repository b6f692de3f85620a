//! What is passed on: one picture with all it needs to be understood, tables, a text block for a forum, joints for CAD, a QR code.

use crate::app::App;
use crate::app::Told;
use crate::drawing::{Arrangement, Fill, Ink, Item, Scene, Sheet, Step, Stroke, Text, draw, wrapped};
use crate::exchange::{as_built, block};
use crate::text::caution::CAUTION;
use kernel::{Demand, Layout, PointId, Reading, Snapshot, Subject, Table, Vec3};
use qrcodegen::{QrCode, QrCodeEcc};

/// Size of the picture, and its free quarter for the words, px.
const SIZE: [f64; 2] = [983.0, 810.0];
const WORDS: [f64; 2] = [416.0, 348.0];

/// Height of a line of words, px.
const LINE: f64 = 16.0;

/// The drawing with its name, pinned readings, legend, sign rule, caution and link.
pub fn picture(app: &App, link: &str) -> Scene {
    let picture = app.picture();
    let sheet = Sheet::fit(SIZE, Arrangement::Cross { drawer: WORDS }, &picture);
    let mut scene = draw(&picture, &sheet);
    let width = WORDS[0] - 32.0;
    let legend = "Dash-dot line on a band: steering axis. Dashed: hidden by the tyre. Thin grey: at rest. Circles: ball joints; triangles: on the body.";
    let rule = format!(
        "Lengths in {}. {}; x forward, y left, z up, signs to ISO 8855. {}",
        app.document.units.length_name(),
        as_built::wheel(app),
        as_built::changes(&app.document.layout)
    );
    let mut lines = vec![(app.document.layout.name.clone(), 15.0, true)];
    lines.extend(readings(app).into_iter().map(|text| (text, 12.5, false)));
    let meaning = app.margins_mean().unwrap_or_default();
    for text in [&meaning, legend, &rule, CAUTION].into_iter().filter(|text| !text.is_empty()) {
        lines.extend(wrapped(text, 11.0, width).into_iter().map(|text| (text, 11.0, false)));
    }
    // A long link in small letters; what does not fit any more is cut, and says so.
    lines.extend(wrapped(link, 8.0, width).into_iter().map(|text| (text, 8.0, false)));
    let (left, mut y) = (16.0, SIZE[1] - WORDS[1] + 20.0);
    for (text, size, bold) in lines {
        if y > SIZE[1] - 16.0 {
            let more = "… (the link is longer: copy it from the page)";
            scene.items.push(Item::Text(Text { size: 8.0, halo: false, ..Text::at([left, y], more) }));
            break;
        }
        scene.items.push(Item::Text(Text { size, bold, halo: false, ..Text::at([left, y], &text) }));
        y += LINE * size / 12.5;
    }
    let edge = [[0.0, SIZE[1] - WORDS[1]], [WORDS[0], SIZE[1] - WORDS[1]], [WORDS[0], SIZE[1]]];
    let steps = edge.iter().enumerate().map(|(i, p)| if i == 0 { Step::Move(*p) } else { Step::Line(*p) }).collect();
    scene.items.push(Item::Path { steps, fill: None, stroke: Some(Stroke::line(Ink::Ink, 1.0)) });
    let paper =
        [Step::Move([0.0, 0.0]), Step::Line([SIZE[0], 0.0]), Step::Line(SIZE), Step::Line([0.0, SIZE[1]]), Step::Close];
    scene.items.insert(0, Item::Path { steps: paper.to_vec(), fill: Some(Fill::solid(Ink::Paper)), stroke: None });
    scene
}

/// The pinned readings, a line each: name, value, unit.
fn readings(app: &App) -> Vec<String> {
    let line = |reading: &'static Reading| {
        let told = match app.told(reading, app.study.good.value(reading)) {
            Told::Hidden => "?".into(),
            Told::Value(value) => app.document.units.with_unit(value, reading),
        };
        format!("{} {told}{}", reading.full_name(), app.printed_plus_minus(reading))
    };
    app.document.pinned.iter().filter_map(|column| Reading::named(column)).map(line).collect()
}

/// The table of the states along travel, at the present rack and without roll: the same columns as on the command line, with those of the whole
/// axle where it is shown, of a rig's sweep and of what gives way. What a lesson hides is a `?`.
pub fn curves_csv(app: &App) -> String {
    let good = &app.study.good;
    let axle = good.whole.is_some().then_some(Subject::Axle);
    let of: Vec<Subject> = [Subject::Wheel].into_iter().chain(axle).chain([Subject::Rig, Subject::Elastic]).collect();
    let table = Table { linkage: good.linkage(), load: None, of: &of };
    let header = table.header();
    let hidden: Vec<bool> = header.split(',').map(|column| app.hides(column)).collect();
    let mut text = header + "\n";
    let curve = good.over_travel();
    for ((travel, state), known) in curve.points.iter().zip(&curve.known) {
        let snapshot = Snapshot::level(&good.axle, state).knowing(known);
        // Without a force no position is refused.
        if let Ok(row) = table.row(&Demand::new(*travel, state.position.rack), &snapshot) {
            let told = row.split(',').zip(&hidden).map(|(cell, hidden)| if *hidden { "?" } else { cell });
            text += &(told.collect::<Vec<_>>().join(",") + "\n");
        }
    }
    text
}

/// The points at rest: name, x, y, z, mm.
pub fn points_csv(layout: &Layout) -> String {
    let rows = block::write(layout);
    let row = |line: &str| {
        let (name, numbers) = line.split_once('\t').unwrap_or((line, ""));
        format!("\"{name}\",{}\n", numbers.replace('\t', ","))
    };
    "point,x_mm,y_mm,z_mm\n".to_string() + &rows.lines().map(row).collect::<String>()
}

/// How a forum marks text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Markup {
    /// Not at all.
    Plain,
    /// Markdown.
    Markdown,
    /// BBCode.
    BbCode,
}

/// A text block for a post: name, position, pinned readings, link.
pub fn post(app: &App, link: &str, markup: Markup) -> String {
    let name = &app.document.layout.name;
    let at = format!("travel {:.1} mm, rack {:.1} mm", app.document.travel, app.document.rack);
    let mut lines = readings(app);
    lines.extend(as_built::unusual(app));
    match markup {
        Markup::Plain => format!("{name} ({at})\n{}\n{link}\n", lines.join("\n")),
        Markup::Markdown => {
            // What Markdown would take for a sign of its own is text.
            let name: String =
                name.chars().flat_map(|c| if r"\`*_[]()<>#|".contains(c) { vec!['\\', c] } else { vec![c] }).collect();
            let lines: String = lines.iter().map(|line| format!("- {line}\n")).collect();
            format!("**{name}** ({at})\n\n{lines}\n[Open it]({link})\n")
        }
        Markup::BbCode => {
            let name = name.replace(['[', ']'], "");
            let lines: String = lines.iter().map(|line| format!("[*]{line}\n")).collect();
            format!("[b]{name}[/b] ({at})\n[list]\n{lines}[/list]\n[url={link}]Open it[/url]\n")
        }
    }
}

/// The joints at rest as DXF in its R12 text form, the oldest that every CAD program reads: points and members as lines, mm,
/// on layers named after their part; of an axle as it is built those of the wheel shown, as a left one, and a comment (group code 999) says so. Written by hand: a library that does it is larger than this page.
pub fn dxf(app: &App) -> String {
    use PointId::*;
    let layout = &app.document.layout;
    let (good, built) = (&app.study.good, app.study.trouble.is_none() && !layout.changes.is_empty());
    let rest = good.linkage().rest();
    let at_rest = |id: PointId, drawn: Vec3| good.linkage().place(&rest, 0.0, id, drawn);
    let joint = |id: PointId| match built {
        true => good.layout().point(id).map(|drawn| at_rest(id, drawn)),
        false => layout.point(id),
    };
    let mut text = format!("999\n{}\n0\nSECTION\n2\nENTITIES\n", as_built::as_built(app));
    let place = |codes: [u8; 3], p: Vec3| {
        codes.iter().zip(p.iter()).map(|(code, mm)| format!("{code}\n{mm:.4}\n")).collect::<String>()
    };
    for (id, p) in layout.points().filter_map(|(id, _)| Some((id, joint(id)?))) {
        text += &format!("0\nPOINT\n8\n{}\n{}", layer(id.name()), place([10, 20, 30], p));
    }
    let lower = [
        [LowerFrontInner, LowerFrontOuter],
        [LowerRearInner, LowerRearOuter],
        [LowerFrontInner, LowerOuter],
        [LowerRearInner, LowerOuter],
    ];
    let upper = [
        [UpperFrontInner, UpperFrontOuter],
        [UpperRearInner, UpperRearOuter],
        [UpperFrontInner, UpperOuter],
        [UpperRearInner, UpperOuter],
    ];
    let others = [
        [StrutTop, StrutFoot],
        [TrackRodInner, TrackRodOuter],
        [SpringTop, SpringFoot],
        [ShaftInner, ShaftOuter],
        [BarPivot, BarLever],
        [BarLever, BarLink],
    ];
    for [a, b] in lower.into_iter().chain(upper).chain(others) {
        if let (Some(from), Some(to)) = (joint(a), joint(b)) {
            text +=
                &format!("0\nLINE\n8\n{}\n{}{}", layer(a.name()), place([10, 20, 30], from), place([11, 21, 31], to));
        }
    }
    text + "0\nENDSEC\n0\nEOF\n"
}

/// A layer's name: letters, digits and underscores.
fn layer(name: &str) -> String {
    let part = name.split(',').next().unwrap_or(name);
    part.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_uppercase() } else { '_' }).collect()
}

/// The largest QR code a projector can show and a phone still read: a link of more bytes has none.
pub const MOST_QR: usize = 1_200;

/// A link as a QR code with its quiet zone, a module 4 px; `None` for a link that is too long.
pub fn qr(link: &str) -> Option<Scene> {
    const MODULE: f64 = 4.0;
    const QUIET: f64 = 4.0;
    let code = QrCode::encode_text(link, QrCodeEcc::Low).ok().filter(|_| link.len() <= MOST_QR)?;
    let side = (f64::from(code.size()) + 2.0 * QUIET) * MODULE;
    let mut scene = Scene::new([side, side]);
    let square = |x: f64, y: f64, size: f64| {
        [
            Step::Move([x, y]),
            Step::Line([x + size, y]),
            Step::Line([x + size, y + size]),
            Step::Line([x, y + size]),
            Step::Close,
        ]
    };
    scene.items.push(Item::Path {
        steps: square(0.0, 0.0, side).to_vec(),
        fill: Some(Fill::solid(Ink::Paper)),
        stroke: None,
    });
    let dark =
        (0..code.size()).flat_map(|y| (0..code.size()).map(move |x| (x, y))).filter(|(x, y)| code.get_module(*x, *y));
    let steps = dark
        .flat_map(|(x, y)| square((f64::from(x) + QUIET) * MODULE, (f64::from(y) + QUIET) * MODULE, MODULE))
        .collect();
    scene.items.push(Item::Path { steps, fill: Some(Fill::solid(Ink::Ink)), stroke: None });
    Some(scene)
}

/// A snippet that embeds the link's state in another page.
pub fn snippet(link: &str) -> String {
    let (page, parameters) = link.split_once('#').unwrap_or((link, ""));
    format!(
        "<iframe src=\"{page}#{}&amp;embed=1\" title=\"Front axle, interactive drawing\" width=\"640\" height=\"560\" loading=\"lazy\"></iframe>\n",
        parameters.replace('&', "&amp;")
    )
}
