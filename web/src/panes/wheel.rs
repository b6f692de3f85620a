//! Wheel and tyre, rack, and the kinds of the guides: what the points do not say of the axle. Brought up to date only while it is open.

use super::boxes::{Boxes, Fold, choice, part};
use super::number_box::NumberBox;
use super::rows::Rows;
use crate::app::{App, Build, Lever, Part, Say, WHEEL_CHANGES};
use crate::browser::dom::{Shown, find, on};
use crate::browser::page::{Page, Pane};
use crate::text::number::{fixed, plain};
use kernel::field::{RACK, WHEEL};
use kernel::{Guide, Level, Mount, Rack, Sides, TyreSize, Wheel, clip};
use web_sys::{Element, Event, HtmlElement, HtmlInputElement, HtmlSelectElement};

/// The sections.
pub struct WheelPane {
    /// The pane they stand in, which is brought up to date when it is opened.
    whole: HtmlElement,
    wheel: Fold,
    size: HtmlInputElement,
    means: Shown,
    sides: Shown,
    design: Boxes<Wheel>,
    changes: Vec<NumberBox>,
    levers: Rows,
    rack: (HtmlInputElement, HtmlElement, Boxes<Rack>, HtmlSelectElement),
    kinds: [(Level, HtmlElement, Shown); 2],
}

impl WheelPane {
    /// Finds them on the page.
    pub fn new(page: &Page) -> WheelPane {
        let size: HtmlInputElement = find("tyre");
        let typing = page.clone();
        on(&size, "input", move |_: Event| typing.change());
        type Fit = (&'static str, fn(TyreSize, &Page));
        let fit: [Fit; 2] = [
            ("tyre-design", |size, page| page.send(Part::Tyre(size))),
            ("tyre-change", |size, page| page.send(Build::Tyre(size))),
        ];
        for (id, fit) in fit {
            let (page, size) = (page.clone(), size.clone());
            on(&find::<Element>(id), "click", move |_: Event| match TyreSize::parse(&size.value()) {
                Some(size) => fit(size, &page),
                None => page.send(Say::Sentence(format!(
                    "“{}” is not a tyre size; type it as on the tyre: 225/45 R17.",
                    clip(&size.value())
                ))),
            });
        }
        let place: Element = find("wheel-changes");
        let change = |change: kernel::Change| {
            let layout = page.with(|app| app.document.layout.clone());
            let name = format!("{}, {}", change.label(&layout), change.unit());
            NumberBox::named(page, &place, &name, move |page, by| {
                let sides = page.with(|app| app.document.changed_sides());
                page.send(Build::Change(sides, change, by));
            })
        };
        WheelPane {
            whole: find("points"),
            wheel: Fold::around(page, "tyre"),
            size,
            means: Shown::text(find::<Element>("tyre-means")),
            sides: Shown::text(find::<Element>("wheel-sides")),
            design: Boxes::new(
                page,
                "wheel-boxes",
                &WHEEL,
                |document| Some(document.layout.wheel.clone()),
                Part::Wheel,
            ),
            changes: WHEEL_CHANGES.map(change).into(),
            levers: Rows::new("levers"),
            rack: (
                part(page, "has-rack", |_, has| Part::Rack(has.then(Rack::usual))),
                find("rack-of"),
                Boxes::new(
                    page,
                    "rack-boxes",
                    &RACK,
                    |document| document.layout.rack.clone(),
                    |rack| Part::Rack(Some(rack)),
                ),
                choice(page, "rack-mount", &Mount::ALL.map(|(_, name)| name), |page, at| {
                    let rack = page.with(|app| app.document.layout.rack.clone());
                    page.send(Part::Rack(rack.map(|rack| Rack { mount: Mount::ALL[at.min(1)].0, ..rack })));
                }),
            ),
            kinds: Level::ALL.map(|level| {
                let id = if level == Level::Lower { "kind-lower" } else { "kind-upper" };
                let (button, page) = (find::<HtmlElement>(id), page.clone());
                on(&button, "click", move |_: Event| page.send(Part::OtherKind(level)));
                (level, button.clone(), Shown::text(button))
            }),
        }
    }

    fn wheel(&self, app: &App) {
        let layout = &app.document.layout;
        self.means.show(&TyreSize::parse(&self.size.value()).map_or(String::new(), |size| {
            let [free, loaded] = [size.free_radius(), size.loaded_radius()].map(|mm| fixed(mm, 1));
            format!("{size}: free radius {free} mm, loaded about {loaded} mm")
        }));
        self.design.show(Some(&layout.wheel));
        let sides = app.document.changed_sides();
        self.sides.show(match sides {
            Sides::Both => "both wheels",
            Sides::One(side) if side.index() == 0 => "left wheel",
            Sides::One(_) => "right wheel",
        });
        for (number, change) in self.changes.iter().zip(WHEEL_CHANGES) {
            number.show(&plain(layout.changes.get(sides, change)));
        }
        let units = app.document.units;
        let row = |(quantity, values): &Lever| {
            let [before, after] = values.map(|told| told.text(quantity, units));
            vec![quantity.full_name(), before, after]
        };
        self.levers.show(app.levers().iter().map(row).collect());
    }
}

impl Pane for WheelPane {
    fn show(&self, _: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        if self.wheel.is_open() {
            self.wheel(app);
        }
        let layout = &app.document.layout;
        let (tick, of, boxes, mount) = &self.rack;
        tick.set_checked(layout.rack.is_some());
        of.set_hidden(layout.rack.is_none());
        boxes.show(layout.rack.as_ref());
        mount.set_selected_index(i32::from(layout.rack.as_ref().is_some_and(|rack| rack.mount == Mount::Body)));
        for (level, button, text) in &self.kinds {
            let name = if *level == Level::Lower { "lower" } else { "upper" };
            button.set_hidden(matches!(layout.guide(*level), Guide::Strut { .. }));
            text.show(&match layout.guide(*level) {
                Guide::Wishbone { .. } => format!("Split the {name} wishbone into two arms"),
                _ => format!("Join the two {name} arms into a wishbone"),
            });
        }
    }
}
