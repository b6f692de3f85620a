//! Loads: the case, what the steering feels, what members, strut rod and joints bear, and the vehicle. Long because it is one pane of
//! many parts; it is brought up to date only while it is shown.

use super::number_box::NumberBox;
use super::rows::Rows;
use crate::app::{App, Message};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::browser::window::theme;
use crate::demos::{self, DEMOS};
use crate::document::{Case, Document, Loads};
use crate::drawing::beam;
use crate::loaded::{self, Bent, Loaded, MemberRow};
use crate::number::{fixed, signed};
use crate::plot::{self, Plot};
use crate::svg::svg;
use kernel::{
    Amount, AntiRollBar, Damper, Drive, HalfShaft, LIMIT, Layout, Load, LoadCase, Material, PointId, Section, Share,
    SpringOn, Springing, SteeringMoment, Stops, Strength, Vehicle, frequency, swing,
};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement, HtmlSelectElement};

/// A box with its name, for one number of a part of the document.
type Field<T> = (&'static str, fn(&T) -> f64, fn(&mut T, f64));

const VEHICLE: [Field<Vehicle>; 12] = [
    ("wheelbase, mm", |v| v.wheelbase, |v, x| v.wheelbase = x),
    ("mass, kg", |v| v.mass, |v, x| v.mass = x),
    ("front share", |v| v.front_share, |v, x| v.front_share = x),
    ("height of the centre of gravity, mm", |v| v.cg_height, |v, x| v.cg_height = x),
    ("front share of braking", |v| v.brake_share, |v, x| v.brake_share = x),
    ("unsprung mass of a wheel, kg", |v| v.unsprung_mass, |v, x| v.unsprung_mass = x),
    ("rear roll centre, mm", |v| v.rear_roll_centre, |v, x| v.rear_roll_centre = x),
    ("roll stiffness, N·m/°", |v| v.roll_stiffness, |v, x| v.roll_stiffness = x),
    ("its front share", |v| v.roll_stiffness_share, |v, x| v.roll_stiffness_share = x),
    ("width of the body, mm", |v| v.width, |v, x| v.width = x),
    ("front overhang, mm", |v| v.front_overhang, |v, x| v.front_overhang = x),
    ("efficiency of the steering gear", |v| v.steering_efficiency, |v, x| v.steering_efficiency = x),
];

const DAMPER: [Field<Damper>; 4] = [
    ("mount to guide, mm", |d| d.guide, |d, x| d.guide = x),
    ("guide to piston, mm", |d| d.piston, |d, x| d.piston = x),
    ("rod, mm", |d| d.rod, |d, x| d.rod = x),
    ("friction µ", |d| d.friction, |d, x| d.friction = x),
];

const OWN: [Field<Loads>; 6] = [
    ("road, forward, N", |l| l.own[0], |l, x| l.own[0] = x),
    ("road, to the left, N", |l| l.own[1], |l, x| l.own[1] = x),
    ("road, up, N", |l| l.own[2], |l, x| l.own[2] = x),
    ("wheel centre, forward, N", |l| l.own[3], |l, x| l.own[3] = x),
    ("wheel centre, to the left, N", |l| l.own[4], |l, x| l.own[4] = x),
    ("wheel centre, up, N", |l| l.own[5], |l, x| l.own[5] = x),
];

const SIZES: [Field<Loads>; 2] = [
    ("Ø or area", |l| section_size(l)[0], |l, x| l.section = resized(l.section, 0, x)),
    ("wall or 2nd moment", |l| section_size(l)[1], |l, x| l.section = resized(l.section, 1, x)),
];

const RIGHT: [Field<Option<HalfShaft>>; 1] = [(
    "right shaft’s inner joint at y, mm",
    |shaft| shaft.map_or(0.0, |shaft| shaft.right_inner_y.unwrap_or(-shaft.inner.y)),
    |shaft, y| {
        *shaft = shaft.map(|shaft| HalfShaft { right_inner_y: Some(y).filter(|y| *y != -shaft.inner.y), ..shaft })
    },
)];

const STOPS: [Field<Option<Stops>>; 2] = [
    (
        "bump stop at travel, mm",
        |stops| stops.map_or(0.0, |s| s.bump),
        |stops, x| *stops = stops.map(|s| Stops { bump: x, ..s }),
    ),
    (
        "rebound stop at, mm",
        |stops| stops.map_or(0.0, |s| s.rebound),
        |stops, x| *stops = stops.map(|s| Stops { rebound: x, ..s }),
    ),
];

const BAR: [Field<Option<AntiRollBar>>; 1] = [(
    "round, of steel, Ø mm",
    |bar| bar.map_or(0.0, |bar| bar.diameter),
    |bar, x| *bar = bar.map(|bar| AntiRollBar { diameter: x, stiffness: None, ..bar }),
)];

const LIMITS: [Field<Loads>; 1] = [("limit, degrees", |l| l.swing, |l, x| l.swing = x)];

const STRESS: [Field<Loads>; 1] = [("allowed stress, N/mm²", |l| l.stress, |l, x| l.stress = x)];

fn section_size(loads: &Loads) -> [f64; 2] {
    match loads.section {
        Section::Tube { outer, wall } => [outer, wall],
        Section::Given { area, inertia } => [area, inertia],
    }
}

fn resized(section: Section, which: usize, value: f64) -> Section {
    match (section, which) {
        (Section::Tube { wall, .. }, 0) => Section::Tube { outer: value, wall },
        (Section::Tube { outer, .. }, _) => Section::Tube { outer, wall: value },
        (Section::Given { inertia, .. }, 0) => Section::Given { area: value, inertia },
        (Section::Given { area, .. }, _) => Section::Given { area, inertia: value },
    }
}

/// Boxes for the numbers of one part.
struct Boxes<T: 'static> {
    fields: &'static [Field<T>],
    boxes: Vec<NumberBox>,
}

impl<T: Copy + 'static> Boxes<T> {
    fn new(
        page: &Page,
        place: &str,
        fields: &'static [Field<T>],
        of: fn(&Document) -> T,
        message: fn(T) -> Message,
    ) -> Boxes<T> {
        let place: Element = find(place);
        let boxes = fields.iter().map(|&(name, _, write)| {
            NumberBox::named(page, &place, name, move |page, value| {
                let mut part = page.with(|app| of(&app.document));
                write(&mut part, value);
                page.send(message(part));
            })
        });
        Boxes { fields, boxes: boxes.collect() }
    }

    fn show(&self, part: &T) {
        for ((_, read, _), number) in self.fields.iter().zip(&self.boxes) {
            let text = format!("{:.4}", read(part));
            number.show(text.trim_end_matches('0').trim_end_matches('.'));
        }
    }
}

/// A choice from a list.
fn choice(page: &Page, id: &str, names: &[&str], choose: fn(&Page, usize)) -> HtmlSelectElement {
    let select: HtmlSelectElement = find(id);
    for name in names {
        make::<Element>(&select, "option").set_text_content(Some(name));
    }
    let (page, chosen) = (page.clone(), select.clone());
    on(&select, "change", move |_: Event| choose(&page, usize::try_from(chosen.selected_index()).unwrap_or_default()));
    select
}

/// A box to tick for a part that a layout can have or lack.
fn part(page: &Page, id: &str, make: fn(&Layout, bool) -> Message) -> HtmlInputElement {
    let tick: HtmlInputElement = find(id);
    let (page, ticked) = (page.clone(), tick.clone());
    on(&tick, "change", move |_: Event| {
        let message = page.with(|app| make(&app.document.layout, ticked.checked()));
        page.send(message);
    });
    tick
}

/// Changes the document's loads.
fn change(page: &Page, change: impl FnOnce(&mut Loads)) {
    let mut loads = page.with(|app| app.document.loads);
    change(&mut loads);
    page.send(Message::Loads(loads));
}

/// The pane.
pub struct LoadsPane {
    whole: HtmlElement,
    case: HtmlSelectElement,
    assumes: Shown,
    own: (HtmlElement, Boxes<Loads>),
    shares: Vec<(Shown, Shown)>,
    felt: Shown,
    others: (Shown, Vec<(&'static str, Layout)>),
    members: Rows,
    all: Rows,
    material: HtmlSelectElement,
    section: HtmlSelectElement,
    sizes: Boxes<Loads>,
    bent: Shown,
    mass: Shown,
    rod: (Markup, Shown, Markup),
    damper: (Boxes<Damper>, Boxes<Loads>),
    swings: (Rows, Boxes<Loads>),
    ride: (Shown, Shown, [NumberBox; 2], Rc<Cell<Option<Springing>>>),
    vehicle: Boxes<Vehicle>,
    drive: HtmlSelectElement,
    shaft: HtmlInputElement,
    right: Boxes<Option<HalfShaft>>,
    rocker: HtmlInputElement,
    bar: (HtmlInputElement, HtmlElement, Boxes<Option<AntiRollBar>>),
    stops: (HtmlInputElement, HtmlElement, Boxes<Option<Stops>>),
}

/// A place for a drawing, written anew only when it changes.
struct Markup {
    place: Element,
    last: RefCell<String>,
}

impl Markup {
    fn new(id: &str) -> Markup {
        Markup { place: find(id), last: RefCell::default() }
    }

    fn show(&self, svg: String) {
        if *self.last.borrow() != svg {
            self.place.set_inner_html(&svg);
            self.last.replace(svg);
        }
    }
}

impl LoadsPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> LoadsPane {
        let cases: Vec<&str> =
            [&["none"][..], &LoadCase::all().iter().map(|case| case.name).collect::<Vec<_>>(), &["own load"]].concat();
        let opening = page.clone();
        // Who opens the pane wants to see a load.
        on(&find::<Element>("tab-loads"), "click", move |_: Event| {
            if opening.with(|app| app.document.loads.case == Case::None) {
                change(&opening, |loads| loads.case = Case::Of(1));
            }
            opening.change();
        });
        let shaft = part(page, "has-shaft", |layout, has| Message::HalfShaft(has.then(|| HalfShaft::usual(layout))));
        let bar = part(page, "has-bar", |layout, has| Message::Bar(has.then(|| AntiRollBar::usual(layout))));
        let rocker = part(page, "has-rocker", |layout, has| {
            let spring = &layout.spring;
            Message::Spring(Box::new(if has { spring.rocked().unwrap_or(spring.clone()) } else { spring.unrocked() }))
        });
        let stopped = part(page, "has-stops", |_, has| Message::Stops(has.then(Stops::default)));
        let shares: Element = find("shares");
        let loads: fn(&Document) -> Loads = |document| document.loads;
        LoadsPane {
            whole: find("loads"),
            case: choice(page, "case", &cases, |page, at| {
                let case = Case::all().nth(at).map_or(Case::None, |(case, _)| case);
                change(page, |loads| loads.case = case);
            }),
            assumes: Shown::text(find::<Element>("assumes")),
            own: (find("own-load"), Boxes::new(page, "own-load", &OWN, loads, Message::Loads)),
            shares: Share::ALL
                .iter()
                .map(|(_, name)| *name)
                .chain(["together"])
                .map(|name| share(&shares, name))
                .collect(),
            felt: Shown::text(find::<Element>("felt")),
            others: (
                Shown::text(find::<Element>("others")),
                DEMOS.iter().enumerate().filter_map(|(i, (name, _))| Some((*name, demos::layout(i)?))).collect(),
            ),
            members: Rows::new("member-rows"),
            all: Rows::new("all-cases"),
            material: choice(page, "material", &Material::ALL.map(|(_, name)| name), |page, at| {
                change(page, |loads| loads.material = Material::ALL[at.min(1)].0);
            }),
            section: choice(page, "section", &[], |page, at| {
                let tube = Section::Tube { outer: 30.0, wall: 3.0 };
                change(page, |loads| {
                    loads.section = if at == 0 { tube } else { Section::Given { area: 254.0, inertia: 23_475.0 } }
                });
            }),
            sizes: Boxes::new(page, "section-size", &SIZES, loads, Message::Loads),
            bent: Shown::text(find::<Element>("arm-bent")),
            mass: Shown::text(find::<Element>("arm-mass")),
            rod: (Markup::new("rod-drawing"), Shown::text(find::<Element>("rod-words")), Markup::new("side-plot")),
            damper: (
                Boxes::new(page, "damper-boxes", &DAMPER, |document| document.layout.damper(), Message::Damper),
                Boxes::new(page, "damper-boxes", &STRESS, loads, Message::Loads),
            ),
            swings: (Rows::new("swings"), Boxes::new(page, "swing-limit", &LIMITS, loads, Message::Loads)),
            ride: other_spring(page),
            vehicle: Boxes::new(page, "vehicle", &VEHICLE, |document| document.layout.vehicle(), Message::Vehicle),
            drive: choice(page, "drive", &Drive::ALL.map(|(_, name)| name), |page, at| {
                let mut vehicle = page.with(|app| app.document.layout.vehicle());
                vehicle.drive = Drive::ALL[at.min(2)].0;
                page.send(Message::Vehicle(vehicle));
            }),
            shaft,
            stops: (
                stopped,
                find("stops"),
                Boxes::new(page, "stops", &STOPS, |document| document.layout.stops, Message::Stops),
            ),
            rocker,
            bar: (
                bar,
                find("bar-size"),
                Boxes::new(page, "bar-size", &BAR, |document| document.layout.anti_roll_bar, Message::Bar),
            ),
            right: Boxes::new(page, "right-shaft", &RIGHT, |document| document.layout.half_shaft, Message::HalfShaft),
        }
    }

    fn steering(&self, app: &App, loaded: Option<&Loaded>) {
        let document = &app.document;
        let moment = loaded.and_then(|loaded| loaded.moment);
        let values =
            moment.map(|m| m.shares.iter().copied().chain([m.total()]).map(|mm| mm / 1000.0).collect::<Vec<_>>());
        let most = values.iter().flatten().fold(1.0, |most: f64, v| most.max(v.abs()));
        for (at, (value, bar)) in self.shares.iter().enumerate() {
            let now = values.as_ref().map(|values| values[at]);
            value.show(&now.map_or("–".into(), |now| format!("{} N·m", signed(now, 1))));
            bar.show(&format!("M0 2H{:.1}V10H0Z", now.unwrap_or_default() / most * 95.0));
        }
        let rack = document.layout.rack.as_ref();
        let good = &app.study.good;
        let unequal = loaded.and_then(|l| SteeringMoment::shaft_difference(&l.load, &good.linkage, &good.now));
        self.felt.show(&match (moment, rack) {
            (Some(moment), Some(rack)) => format!(
                "The wheel puts {} N on the rack; holding it takes {} N·m at the steering wheel.{}",
                signed(moment.rack_force, 0),
                signed(moment.at_the_wheel(rack, &app.study.good.layout.vehicle()) / 1000.0, 2),
                unequal.map_or(String::new(), |mm| format!(
                    " Shafts of unequal length leave {} N·m between left and right.",
                    signed(mm / 1000.0, 2)
                ))
            ),
            (None, None) => "The axle is not steered: there is no steering axis.".into(),
            _ => String::new(),
        });
        let on = |(name, layout): &(&str, Layout)| {
            Some(format!(
                "{}: {} N·m",
                name.to_lowercase(),
                signed(loaded::moment_on(layout, &app.study.good, document)? / 1000.0, 1)
            ))
        };
        self.others.0.show(&self.others.1.iter().filter_map(on).collect::<Vec<_>>().join(", "));
    }

    fn arms(&self, app: &App) {
        let loads = &app.document.loads;
        let rows = loaded::members(&app.study.good, &app.document);
        let kilo = |newton: f64| signed(newton / 1000.0, 2);
        let shown = rows.iter().map(|row| {
            let case = |extreme: Option<(f64, usize)>| {
                extreme.map_or("–".into(), |(force, at)| format!("{} {}", kilo(force), LoadCase::all()[at].key))
            };
            let unknown = if row.bent == Bent::No { "–" } else { "bent" };
            let reserve = row
                .reserve(loads.section, loads.material)
                .map_or(unknown.into(), |r| format!("{}{}", if r < 1.0 { "!" } else { "" }, fixed(r.min(999.0), 1)));
            vec![
                row.name.into(),
                row.now.map_or("–".into(), kilo),
                case(row.tension()),
                case(row.compression()),
                reserve,
            ]
        });
        self.members.show(shown.collect());
        self.bent.show(&rows.iter().find_map(bent).unwrap_or_default());
        let heading = ["kN"].into_iter().chain(LoadCase::all().iter().map(|case| case.key)).map(String::from).collect();
        let cells =
            |row: &MemberRow| [row.name.to_string()].into_iter().chain(row.cases.iter().map(|f| kilo(*f))).collect();
        self.all.show([heading].into_iter().chain(rows.iter().map(cells)).collect());
        let mass = |material| {
            rows.iter().filter_map(|row| row.length).map(|l| Strength::of(l, loads.section, material).mass).sum::<f64>()
        };
        self.mass.show(&format!(
            "All rods and legs of this section together: {} kg in steel, {} kg in aluminium. Buckling asks for stiffness, which aluminium has a third of: a thicker section, still lighter.",
            fixed(mass(Material::Steel), 2),
            fixed(mass(Material::Aluminium), 2)
        ));
        self.sizes.show(loads);
        self.material.set_selected_index(i32::from(loads.material == Material::Aluminium));
        self.section.set_selected_index(i32::from(matches!(loads.section, Section::Given { .. })));
    }

    fn strut(&self, app: &App, loaded: Option<&Loaded>) {
        let (document, good) = (&app.document, &app.study.good);
        let (drawing, words, curve) = &self.rod;
        self.damper.0.show(&document.layout.damper());
        self.damper.1.show(&document.loads);
        let strut = loaded.and_then(|loaded| loaded.corner.members.strut_side(&good.linkage));
        let Some(rod) = loaded.and_then(|loaded| loaded.rod) else {
            drawing.show(String::new());
            curve.show(String::new());
            words.show(match (loaded, strut) {
                (None, _) => "Choose a load.",
                (_, Some(_)) => "At this travel the guide would be at the mount or past the piston.",
                _ => "No strut: the damper stands between body and arm on a joint at either end, carries no side force, and its rod need only bear its own push.",
            });
            return;
        };
        drawing.show(svg(&beam(&rod), theme()));
        let share = loaded.and_then(|loaded| rod.friction_share(&loaded.corner.members));
        let tilt = loaded.and_then(|loaded| loaded.sparing_tilt);
        words.show(&format!(
            "Side force {} N at the top mount. Friction {} N, {} of the spring’s force. Bending stress {} N/mm²; {} N/mm² would ask for a rod of {} mm.{}",
            fixed(rod.side, 0),
            fixed(rod.friction, 0),
            share.map_or("–".into(), |share| format!("{} %", fixed(share * 100.0, 1))),
            fixed(rod.stress, 0),
            fixed(document.loads.stress, 0),
            fixed(rod.diameter_for(document.loads.stress), 1),
            tilt.map_or(String::new(), |tilt| if tilt > MOST_TILT {
                format!(" No tilt of the spring that could be built takes it off; it would have to be {}°.", fixed(tilt, 0))
            } else {
                format!(" A spring tilted by {}° about its foot would take the whole side force off.", fixed(tilt, 1))
            })
        ));
        let points = loaded::side_over_travel(good, document);
        let plot = Plot::over_travel(points, good.now.travel);
        curve.show(plot.map_or(String::new(), |plot| svg(&plot::scene(&plot, [380.0, 96.0]), theme())));
    }

    fn ride(&self, app: &App) {
        let good = &app.study.good;
        let (words, settles, boxes, other) = &self.ride;
        let Some(spring) = good.springing() else {
            return words.show("The spring does not carry this axle.");
        };
        let rate = spring.at_wheel(&good.linkage, &good.now).map_or(0.0, |(_, rate)| rate);
        let vehicle = good.layout.vehicle();
        words.show(&format!(
            "At rest the spring pushes with {} N; without load it is {} mm long. Wheel rate here {} N/mm, {} Hz.{}",
            fixed(spring.preload, 0),
            fixed(spring.free_length, 1),
            fixed(rate, 1),
            fixed(frequency(rate, vehicle.sprung_mass()), 2),
            loaded::settled(good, &app.document, &spring).map_or(String::new(), |travel| format!(
                " The load shown, on both wheels, settles it at travel {} mm.",
                signed(travel, 1)
            ))
        ));
        let changed = other.get().unwrap_or(spring);
        boxes[0].show(&fixed(changed.rate, 1));
        boxes[1].show(&fixed(changed.free_length, 1));
        let stands = changed.settles(&good.linkage, &Load::braking(&vehicle, 0.0), &good.rest);
        settles.show(&match stands {
            Some(travel) if (travel - good.rest.travel).abs() < 0.05 => String::new(),
            Some(travel) => format!(
                "With this spring the wheel stands at travel {} mm: the car is {}.",
                signed(travel, 1),
                if travel > good.rest.travel { "lower" } else { "higher" }
            ),
            None => "With this spring the axle finds no height to stand at.".into(),
        });
    }

    fn swings(&self, app: &App) {
        let good = &app.study.good;
        let limit = app.document.loads.swing;
        let rows = swing(&good.linkage, crate::study::TRAVEL, app.document.rack_travel());
        let row = |swing: &kernel::Swing| {
            let over = if swing.most > limit { "!" } else { "" };
            let [travel, rack] = swing.at.map(|mm| signed(mm, 0));
            vec![
                PointId::name(swing.joint).to_string(),
                format!("{over}{}°", fixed(swing.most, 1)),
                format!("{travel}, {rack}"),
            ]
        };
        self.swings.0.show(rows.iter().map(row).collect());
        self.swings.1.show(&app.document.loads);
    }
}

/// What the spring bends, in words.
fn bent(row: &MemberRow) -> Option<String> {
    match &row.bent {
        Bent::No => None,
        Bent::Frame => Some("The spring bends the wishbone it stands on as a frame, which is not looked into.".into()),
        Bent::By(moments) => {
            let (at, most) = moments.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
            let (most, case) = (fixed(most / 1000.0, 0), LoadCase::all()[at].name);
            Some(format!("The spring bends the {} arm, most by {most} N·m ({}).", row.name, case.to_lowercase()))
        }
    }
}

/// A spring tilted further than this against its strut, degrees, has no room beside the wheel (common practice).
const MOST_TILT: f64 = 30.0;

/// Boxes for a spring to try: its rate and its free length. Nothing of it is kept in the document.
fn other_spring(page: &Page) -> (Shown, Shown, [NumberBox; 2], Rc<Cell<Option<Springing>>>) {
    let place: Element = find("other-spring");
    let other: Rc<Cell<Option<Springing>>> = Rc::default();
    let number = |name: &'static str, write: fn(&mut Springing, f64)| {
        let other = other.clone();
        NumberBox::named(page, &place, name, move |page, value| {
            if !(0.1..=LIMIT).contains(&value) {
                let value = Amount(value);
                return page.send(Message::Say(format!("For {name}, {value} is not between 0.1 and {LIMIT}.")));
            }
            if let Some(mut spring) = other.get().or_else(|| page.with(|app| app.study.good.springing())) {
                write(&mut spring, value);
                other.set(Some(spring));
                page.change();
            }
        })
    };
    let boxes = [
        number("another spring, N/mm", |spring, rate| spring.rate = rate),
        number("its free length, mm", |spring, length| spring.free_length = length),
    ];
    (Shown::text(find::<Element>("ride-words")), Shown::text(find::<Element>("settles")), boxes, other)
}

/// One row of the steering moments: its value and its bar.
fn share(table: &Element, name: &str) -> (Shown, Shown) {
    let row: Element = make(table, "tr");
    let heading: Element = make(&row, "th");
    set(&heading, "scope", "row");
    heading.set_text_content(Some(name));
    let value = Shown::text(make::<Element>(&row, "td"));
    let cell: Element = make(&row, "td");
    set(&cell, "class", "bar");
    let picture: Element = make(&cell, "svg");
    set(&picture, "viewBox", "-100 0 200 12");
    set(&picture, "aria-hidden", "true");
    let bar: Element = make(&picture, "path");
    set(&make::<Element>(&picture, "path"), "d", "M0 0V12");
    (value, Shown::attribute(bar, "d"))
}

impl Pane for LoadsPane {
    fn show(&self, _: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let loads = &app.document.loads;
        let loaded = app.study.loaded.as_ref();
        let at = Case::all().position(|(case, _)| case == loads.case).unwrap_or_default();
        self.case.set_selected_index(i32::try_from(at).unwrap_or_default());
        self.assumes.show(match loads.case {
            Case::None => "Choose a load to see its forces on the drawing.",
            Case::Of(at) => LoadCase::all().get(at).map_or("", |case| case.assumes),
            Case::Own => "Along the wheel’s heading, its side and up; the wheel locked to the carrier, its own weight not counted.",
        });
        self.own.0.set_hidden(loads.case != Case::Own);
        self.own.1.show(loads);
        self.steering(app, loaded);
        self.arms(app);
        self.strut(app, loaded);
        self.swings(app);
        self.ride(app);
        let vehicle = app.document.layout.vehicle();
        self.vehicle.show(&vehicle);
        let drive = Drive::ALL.iter().position(|(drive, _)| *drive == vehicle.drive).unwrap_or_default();
        self.drive.set_selected_index(i32::try_from(drive).unwrap_or_default());
        self.shaft.set_checked(app.document.layout.half_shaft.is_some());
        self.right.show(&app.document.layout.half_shaft);
        self.rocker.set_checked(app.document.layout.spring.rocker.is_some());
        self.rocker.set_disabled(app.document.layout.spring.on == SpringOn::Strut);
        let bar = app.document.layout.anti_roll_bar;
        self.bar.0.set_checked(bar.is_some());
        self.bar.1.set_hidden(bar.is_none());
        self.bar.2.show(&bar);
        let stops = app.document.layout.stops;
        self.stops.0.set_checked(stops.is_some());
        self.stops.1.set_hidden(stops.is_none());
        self.stops.2.show(&stops);
    }
}
