//! Axles side by side: one scale, one position, the same readings, an end of its own for each; in the link and on paper. Long because what holds of
//! one row holds in the drawing, in its numbers, in its steps and on its way out.

use kernel::{Change, Sides};
use web::app::{App, Beside, Build, InRow, Open, Show, Stand, Step};
use web::content::demos::{DEMOS, layout};
use web::document::lesson::{Freed, Lesson};
use web::document::{Document, MOST_BESIDE};
use web::drawing::{Grab, Item, P, Picture, Scene, Sheet, Step as Pen, Turn, View, draw};
use web::exchange::row::{Seen, row};
use web::link::{read, write};

const STRUT: usize = 0;
const TWO_WISHBONES: usize = 1;
const FOUR_ARMS: usize = 4;
const UNSTEERED: usize = 5;

const CELL: P = [330.0, 520.0];

fn demo(index: usize) -> kernel::Layout {
    layout(index).expect("a demo")
}

fn with(own: usize, others: &[usize]) -> App {
    let mut app = App::new(Document::of(demo(own)), Vec::new());
    app.update(Beside::Add(others.iter().map(|index| demo(*index)).collect()));
    app
}

/// The strut's own axle, four arms and a rack whose stroke is too short, off rest.
pub fn side_by_side() -> App {
    let mut app = with(STRUT, &[FOUR_ARMS]);
    let mut short = demo(TWO_WISHBONES);
    short.rack.as_mut().expect("a rack").travel = 20.0;
    short.changes.set(Sides::Both, Change::Ride, 15.0);
    app.update(Beside::Add(vec![short]));
    app.update(Stand::Travel(25.0));
    app.update(Stand::Rack(30.0));
    app
}

fn pictures<'a>(row: &[InRow<'a>]) -> Vec<Picture<'a>> {
    row.iter().filter_map(|axle| axle.picture).collect()
}

/// The corners of what an outline encloses: least and greatest.
fn bounds(outline: &[P]) -> [P; 2] {
    let pick = |pick: fn(f64, f64) -> f64| [0, 1].map(|i| outline.iter().map(|p| p[i]).reduce(pick).expect("points"));
    [pick(f64::min), pick(f64::max)]
}

/// The tyre's outline as it is drawn.
fn tyre(scene: &Scene) -> [P; 2] {
    let wheel = scene.handles.iter().find(|handle| handle.grab == Grab::Wheel).expect("a wheel");
    bounds(&wheel.outline)
}

/// As seen from the side a wheel is as long as its tyre’s diameter but for its toe of a tenth of a degree, part of it.
const TURNED: f64 = 0.005;

/// Each drawing has so many px to the mm, and all the same, though the wheels are of two sizes; apart, they would not.
#[test]
fn all_are_drawn_to_one_scale() {
    let mut app = with(STRUT, &[FOUR_ARMS, UNSTEERED]);
    app.document.beside[0].wheel.free_radius = 340.0;
    let row = app.row();
    let pictures = pictures(&row);
    assert_eq!(pictures.len(), 3, "{:?}", row.iter().map(|axle| &axle.says).collect::<Vec<_>>());
    let sheet = Sheet::shared(CELL, View::Side, Turn::ISOMETRIC, &pictures);
    for picture in &pictures {
        let [low, high] = tyre(&draw(picture, &sheet));
        let (mm, diameter) = ((high[0] - low[0]) / sheet.scale(), 2.0 * picture.axle.layout.wheel.free_radius);
        assert!((mm - diameter).abs() < TURNED * diameter, "{mm} mm of {diameter}");
    }
    let apart = pictures.iter().map(|picture| Sheet::shared(CELL, View::Side, Turn::ISOMETRIC, &[*picture]).scale());
    let apart: Vec<f64> = apart.collect();
    assert!(apart.iter().any(|scale| *scale > 1.01 * sheet.scale()), "{apart:?}: nothing to be made alike");
    assert!(apart.iter().all(|scale| *scale >= sheet.scale()), "the least of them fits all: {apart:?}");
}

/// The road stands at one height in all of them, and every joint is on the paper, in every view, where the axles stand and where they do not.
#[test]
fn all_stand_on_one_road_and_within_the_paper() {
    for (travel, rack) in [(0.0, 0.0), (60.0, 40.0), (-60.0, -40.0)] {
        let mut app = with(STRUT, &[TWO_WISHBONES, FOUR_ARMS]);
        app.update(Stand::Travel(travel));
        app.update(Stand::Rack(rack));
        let row = app.row();
        let pictures = pictures(&row);
        for view in View::ALL {
            let sheet = Sheet::shared(CELL, view, Turn::ISOMETRIC, &pictures);
            for Picture { axle, .. } in &pictures {
                for (id, point) in axle.layout.points() {
                    let moved = axle.linkage.place(&axle.now.position.pose, axle.now.position.rack, id, point);
                    let at = sheet.project(view, moved);
                    assert!((0..2).all(|i| (0.0..=CELL[i]).contains(&at[i])), "{id:?} {at:?} in {view:?}");
                }
            }
            if view == View::Front {
                let road = |picture: &Picture| {
                    let now = picture.axle.now;
                    sheet.project(view, now.position.pose.w + now.attitude.contact)[1]
                };
                // Their wheels are alike, and so is the travel: to the camber that each gains.
                let roads: Vec<f64> = pictures.iter().map(road).collect();
                assert!(roads.iter().all(|y| (y - roads[0]).abs() < 3.0 * sheet.scale()), "{roads:?}");
            }
        }
    }
}

/// One pose, whatever the way to it, mm.
const SAME: f64 = 1e-6;

/// Each is as far from where its own car stands, at the same rack and roll, and reads what a page of its own reads there.
#[test]
fn all_are_moved_alike() {
    let mut app = with(STRUT, &[TWO_WISHBONES, FOUR_ARMS]);
    app.document.beside[1].changes.set(Sides::Both, Change::Ride, 30.0);
    app.update(Show::Whole(true));
    app.update(Stand::Travel(20.0));
    app.update(Stand::Rack(12.0));
    app.update(Stand::Roll(1.5));
    for (axle, stands) in app.row().iter().zip([0.0, 0.0, 30.0]) {
        let mut alone = App::new(Document::of(axle.layout.clone()), Vec::new());
        alone.update(Show::Whole(true));
        alone.update(Stand::Travel(20.0 + stands));
        alone.update(Stand::Rack(12.0));
        alone.update(Stand::Roll(1.5));
        assert_eq!(axle.says, "");
        assert_eq!(axle.readings.len(), app.document.pinned.len());
        for (reading, text) in &axle.readings {
            let own = alone.document.units.with_unit(alone.study.good.value(reading), reading);
            assert_eq!(*text, own, "{} of {}", reading.column, axle.layout.name);
        }
        let [now, own] = [axle.picture.expect("it closes").axle.now, &alone.study.good.now];
        assert!((now.position.pose.w - own.position.pose.w).norm() < SAME);
    }
}

/// A travel that only some of the demos reach, upwards or downwards.
fn beyond_some() -> (usize, f64) {
    let reaches = |index: usize, travel: f64| {
        let mut app = App::new(Document::of(demo(index)), Vec::new());
        app.update(Stand::Travel(travel));
        app.study.trouble.is_none()
    };
    let travels = (60..=200).step_by(10).flat_map(|mm| [f64::from(mm), -f64::from(mm)]);
    let mut some = travels.flat_map(|travel| (0..DEMOS.len()).map(move |index| (index, travel)));
    some.find(|(index, travel)| !reaches(*index, *travel) && (0..DEMOS.len()).any(|other| reaches(other, *travel)))
        .expect("one ends before the others")
}

/// Where an axle's travel ends before the others', it is drawn there, and it says so: a little less can be had, a little more can't.
#[test]
fn what_ends_before_the_others_says_where() {
    let (short, travel) = beyond_some();
    let own = (0..DEMOS.len()).find(|own| {
        let mut app = App::new(Document::of(demo(*own)), Vec::new());
        app.update(Stand::Travel(travel));
        app.study.trouble.is_none()
    });
    let mut app = with(own.expect("the other"), &[short]);
    app.update(Stand::Travel(travel));
    let row = app.row();
    assert_eq!(row[0].says, "");
    let end = row[1].picture.expect("it closes at its end").axle.now.travel;
    assert!(row[1].says.starts_with("Can’t follow so far: drawn at its end, travel "), "{}", row[1].says);
    assert!(row[1].says.contains(&app.document.units.signed_length(end)), "{}: {end}", row[1].says);
    let closes = |travel: f64| {
        let mut alone = App::new(Document::of(demo(short)), Vec::new());
        alone.update(Stand::Travel(travel));
        alone.study.trouble.is_none()
    };
    let further = 0.2 * travel.signum();
    assert!(closes(end) && !closes(end + further), "{end} of {travel}");
}

/// A rack with a shorter stroke stops at its end; an axle without one stays straight ahead.
#[test]
fn racks_end_where_they_end() {
    let app = side_by_side();
    let row = app.row();
    assert_eq!([row[0].says.as_str(), &row[1].says], ["", ""]);
    assert_eq!(row[2].says, "Can’t follow so far: drawn at its end, rack +20.0.");
    let at = |axle: &InRow| {
        (axle.picture.expect("it closes").axle.now.travel, axle.picture.map(|p| p.axle.now.position.rack))
    };
    assert_eq!([at(&row[0]), at(&row[2])], [(25.0, Some(30.0)), (40.0, Some(20.0))]);
    let mut app = with(STRUT, &[UNSTEERED]);
    assert_eq!(app.row()[1].says, "");
    app.update(Stand::Rack(-10.0));
    assert_eq!(app.row()[1].says, "Has no rack; drawn straight ahead.");
}

/// Three at most, a step to undo each time; a variant under its name, the axle as it is now; what is no sound axle is refused.
#[test]
fn axles_are_put_beside_and_taken_out() {
    let mut app = with(STRUT, &[TWO_WISHBONES, FOUR_ARMS]);
    app.update(Stand::Ride(20.0));
    app.update(Build::Freeze("lowered".into()));
    app.update(Stand::Ride(0.0));
    app.update(Beside::Variant(0));
    let names = |app: &App| app.document.beside.iter().map(|layout| layout.name.clone()).collect::<Vec<_>>();
    assert_eq!(names(&app)[2], "lowered");
    assert_eq!(app.document.beside[2].changes.ride(), 20.0, "as it is built now");
    assert_eq!(app.document.beside.len(), MOST_BESIDE);
    app.update(Beside::Now);
    assert_eq!(app.document.beside.len(), MOST_BESIDE);
    assert!(app.notices[0].starts_with("3 axles stand beside this one already"), "{:?}", app.notices);
    app.update(Beside::TakeOut(0));
    app.update(Beside::TakeOut(7));
    assert_eq!(names(&app), [demo(FOUR_ARMS).name, "lowered".into()]);
    app.update(Step::Undo);
    assert_eq!(app.document.beside.len(), MOST_BESIDE);
    app.update(Step::Undo);
    assert_eq!(app.document.beside.len(), 2);
    let mut broken = demo(STRUT);
    broken.wheel.free_radius = -1.0;
    app.update(Beside::Add(vec![broken]));
    assert_eq!(app.document.beside.len(), 2);
    // Another demo comes to stand beside the same axles; an exercise beside none.
    app.update(Open::Demo(FOUR_ARMS));
    assert_eq!((app.document.beside.len(), app.row().len()), (2, 3));
}

/// What lies over the axle, loads it or is in hand is not drawn in the row: the axles are drawn alike.
#[test]
fn the_own_axle_is_drawn_as_the_others_are() {
    let mut app = with(FOUR_ARMS, &[]);
    app.update(Beside::Now);
    app.update(Build::CompareNow);
    app.update(Stand::Travel(20.0));
    let row = app.row();
    let pictures = pictures(&row);
    let sheet = Sheet::shared(CELL, View::Front, Turn::ISOMETRIC, &pictures);
    let drawn = pictures.iter().map(|picture| format!("{:?}", draw(picture, &sheet).items));
    let drawn: Vec<String> = drawn.collect();
    assert!(drawn[0] == drawn[1], "the same axle looks the same");
}

/// What a lesson hides is hidden of all of them, below the drawing and in it; what it frees is marked on the own one alone.
#[test]
fn what_is_hidden_is_hidden_of_all() {
    let mut app = with(STRUT, &[STRUT]);
    let point = app.document.layout.points().next().expect("points").0;
    let free = vec![Freed { point, axis: 1, range: [0.0, 1000.0] }];
    let hidden = vec!["caster_deg"];
    for axle in app.row() {
        assert!(caster(&axle).iter().all(|text| text.starts_with("caster 3.5°")), "{:?}", caster(&axle));
    }
    app.document.lesson = Some(Lesson { hidden, task: "Look".into(), begin: 1, free, ..Lesson::default() });
    app.update(Stand::Travel(1.0));
    for axle in app.row() {
        let text = &axle.readings.iter().find(|(reading, _)| reading.column == "caster_deg").expect("pinned").1;
        assert_eq!((text.as_str(), caster(&axle)), ("?", vec!["caster ?".to_string()]));
    }
    let marked = |axle: &InRow| {
        axle.picture.and_then(|picture| picture.lesson).is_some_and(|(lesson, _)| !lesson.free.is_empty())
    };
    assert_eq!(app.row().iter().map(marked).collect::<Vec<_>>(), [true, false]);
}

/// What is lettered of the caster in the side view.
fn caster(axle: &InRow) -> Vec<String> {
    let picture = axle.picture.expect("it closes");
    let sheet = Sheet::shared([700.0, 700.0], View::Side, Turn::ISOMETRIC, &[picture]);
    let mut found = Vec::new();
    for item in &draw(&picture, &sheet).items {
        let Item::Clip { items, .. } = item else { continue };
        for item in items {
            let Item::Text(text) = item else { continue };
            found
                .extend((text.text.starts_with("caster ") && !text.text.contains("offset")).then(|| text.text.clone()));
        }
    }
    assert_eq!(found.len(), 1, "it is lettered: {found:?}");
    found
}

/// A link carries all of them, three demos in few letters; and the row on paper has each name, each reading and the caution, within its column.
#[test]
fn link_and_paper_carry_all_of_them() {
    let app = with(STRUT, &[TWO_WISHBONES, FOUR_ARMS]);
    let link = write(&app.document);
    assert_eq!(link, "v=3&of=strut.1&a0.of=double-wishbone.1&a1.of=four-arm.1&end=1");
    let (back, faults) = read(&link).expect("a link");
    assert_eq!((back, faults), (app.document.clone(), Vec::new()));
    for view in View::ALL {
        let size = [1190.0, 900.0];
        let paper = row(&app, Seen { view, turn: Turn::DIMETRIC }, size, "https://example.org/#x");
        let texts: Vec<&web::drawing::Text> =
            paper.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None }).collect();
        let all = texts.iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" ");
        for axle in app.row() {
            assert!(all.contains(&axle.layout.name), "{all}");
            assert!(axle.readings.iter().all(|(_, value)| all.contains(value.as_str())), "{all}");
        }
        assert!(all.contains("not a design approval") && all.contains("All to one scale"), "{all}");
        for text in texts.iter().filter(|text| text.at[1] < size[1] - 120.0) {
            let [left, top, right, bottom] = text.bounds();
            let column = (left / (size[0] / 3.0)).floor();
            assert!((right / (size[0] / 3.0)).floor() == column, "“{}” leaves its column", text.text);
            assert!(top >= 0.0 && bottom <= size[1], "“{}”", text.text);
        }
    }
}

/// A scene moved is the same scene elsewhere.
#[test]
fn items_are_moved_whole() {
    let app = with(STRUT, &[FOUR_ARMS]);
    let row = app.row();
    let sheet = Sheet::shared(CELL, View::Front, Turn::ISOMETRIC, &pictures(&row));
    let items = draw(&row[0].picture.expect("it"), &sheet).items;
    let by = [123.0, -45.0];
    fn places(items: &[Item], all: &mut Vec<P>) {
        for item in items {
            match item {
                Item::Path { steps, .. } => all.extend(steps.iter().filter_map(|step| match step {
                    Pen::Move(p) | Pen::Line(p) | Pen::Circle { centre: p, .. } => Some(*p),
                    Pen::Close => None,
                })),
                Item::Text(text) => all.push(text.at),
                Item::Clip { area, items } => {
                    match area {
                        web::drawing::Area::Rect { min, max } => all.extend([*min, *max]),
                        web::drawing::Area::Circle { centre, .. } => all.push(*centre),
                    }
                    places(items, all);
                }
            }
        }
    }
    let (mut before, mut after) = (Vec::new(), Vec::new());
    places(&items, &mut before);
    let moved: Vec<Item> = items.into_iter().map(|item| item.moved(by)).collect();
    places(&moved, &mut after);
    assert!(before.len() > 100 && before.len() == after.len());
    assert!(before.iter().zip(&after).all(|(a, b)| (0..2).all(|i| (b[i] - a[i] - by[i]).abs() < 1e-9)));
}
