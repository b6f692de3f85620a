//! The load, and what it turns about the steering axis.

use super::change;
use crate::app::{App, Show};
use crate::browser::dom::{Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::{Case, Loads};
use crate::panes::boxes::{Boxes, Fold, Number, choice};
use crate::study::loaded;
use crate::text::number::signed;
use kernel::{LoadCase, Share};
use web_sys::{Element, HtmlElement, HtmlSelectElement};

const OWN: [Number<Loads>; 7] = [
    ("road, forward, N", |l| l.own[0], |l, x| l.own[0] = x),
    ("road, to the left, N", |l| l.own[1], |l, x| l.own[1] = x),
    ("road, up, N", |l| l.own[2], |l, x| l.own[2] = x),
    ("wheel centre, forward, N", |l| l.own[3], |l, x| l.own[3] = x),
    ("wheel centre, to the left, N", |l| l.own[4], |l, x| l.own[4] = x),
    ("wheel centre, up, N", |l| l.own[5], |l, x| l.own[5] = x),
    ("driving torque, N·m", |l| l.own_torque, |l, x| l.own_torque = x),
];

/// The choice of a load, its moments by parts, rack and hands, and the same load on the demos.
pub struct Steering {
    case: HtmlSelectElement,
    assumes: Shown,
    remarks: Shown,
    own: (HtmlElement, Boxes<Loads>),
    shares: Vec<(Shown, Shown)>,
    felt: Shown,
    fold: Fold,
    others: Shown,
}

impl Steering {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Steering {
        let cases: Vec<&str> =
            [&["none"][..], &LoadCase::all().iter().map(|case| case.name).collect::<Vec<_>>(), &["own load"]].concat();
        let shares: Element = find("shares");
        let parts = Share::ALL.iter().map(|(_, name)| *name).chain(["total"]);
        Steering {
            case: choice(page, "case", &cases, |page, at| {
                let case = Case::all().nth(at).map_or(Case::None, |(case, _)| case);
                change(page, |loads| loads.case = case);
            }),
            assumes: Shown::text(find::<Element>("assumes")),
            remarks: Shown::text(find::<Element>("load-remarks")),
            own: (
                find("own-load"),
                Boxes::of_numbers(page, "own-load", &OWN, |document| Some(document.loads), Show::Loads),
            ),
            shares: parts.map(|name| share(&shares, name)).collect(),
            felt: Shown::text(find::<Element>("felt")),
            fold: Fold::around(page, "others"),
            others: Shown::text(find::<Element>("others")),
        }
    }

    /// Shows the load.
    pub fn show(&self, app: &App) {
        let loads = &app.document.loads;
        let at = Case::all().position(|(case, _)| case == loads.case).unwrap_or_default();
        self.case.set_selected_index(i32::try_from(at).unwrap_or_default());
        self.assumes.show(match loads.case {
            Case::None => "Choose a load case to see its forces on the drawing.",
            Case::Of(at) => LoadCase::all().get(at).map_or("", |case| case.assumes),
            Case::Own => "Forces along the wheel’s heading, to its left, and up; the wheel is locked to the carrier, its own weight is ignored. The torque comes through the half-shaft and acts only through its joint angles; enter its force on the road at the wheel centre.",
        });
        self.remarks.show(&loaded::remarks(&app.study.good, &app.document));
        self.own.0.set_hidden(loads.case != Case::Own);
        self.own.1.show(Some(loads));
        self.moments(app);
    }

    fn moments(&self, app: &App) {
        let document = &app.document;
        let moment = app.told_load().and_then(|loaded| loaded.moment);
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
        self.felt.show(&match (moment, rack) {
            (Some(moment), Some(rack)) => format!(
                "This road wheel pushes the rack with {} N. The steering wheel needs {} N·m to hold it and {} N·m to turn against it (+ to the left).{}",
                signed(moment.rack_force, 0),
                signed(moment.hands(rack, &good.layout().vehicle()).hold / 1000.0, 2),
                signed(moment.hands(rack, &good.layout().vehicle()).turn / 1000.0, 2),
                app.shaft_difference().map_or(String::new(), |mm| format!(
                    " Half-shafts of unequal length leave a difference of {} N·m between left and right.",
                    signed(mm / 1000.0, 2)
                ))
            ),
            _ if app.hides_levers() => "The exercise hides a lever arm, and with it the moments.".into(),
            (None, None) => "The axle is not steered: there is no steering axis.".into(),
            _ => String::new(),
        });
        if !self.fold.is_open() {
            return;
        }
        let told =
            |(name, moment): &(&str, f64)| format!("{}: {} N·m", name.to_ascii_lowercase(), signed(moment / 1000.0, 1));
        let all = app.moments_elsewhere().iter().map(told).collect::<Vec<_>>().join(", ");
        self.others.show(if all.is_empty() { "–" } else { &all });
    }
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
