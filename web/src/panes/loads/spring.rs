//! The spring itself and what stands on what: its rate, its line, the rocker's axis, what drop link and spring ride on, the bar's stiffness.

use crate::app::{App, Part};
use crate::browser::dom::find;
use crate::browser::page::Page;
use crate::panes::boxes::{Boxes, choice, part};
use kernel::field::{BAR, ROCKER, SPRING};
use kernel::{AntiRollBar, Rocker, Spring, SpringOn};
use web_sys::{HtmlElement, HtmlInputElement, HtmlSelectElement};

/// What a part can ride on, in the order of [`SpringOn::ALL`].
const RIDES: [&str; 8] = [
    "strut",
    "carrier",
    "lower wishbone",
    "lower front arm",
    "lower rear arm",
    "upper wishbone",
    "upper front arm",
    "upper rear arm",
];

/// Boxes and choices.
pub struct SpringParts {
    rate: Boxes<Spring>,
    on: HtmlSelectElement,
    line: (HtmlInputElement, HtmlElement),
    rocker: (HtmlElement, Boxes<Rocker>),
    bar: (HtmlSelectElement, Boxes<AntiRollBar>),
}

fn rides(at: usize) -> SpringOn {
    SpringOn::ALL[at.min(RIDES.len() - 1)].0
}

fn place(on: SpringOn) -> i32 {
    let at = SpringOn::ALL.iter().position(|(part, _)| *part == on).unwrap_or_default();
    i32::try_from(at).unwrap_or_default()
}

impl SpringParts {
    /// Finds them on the page.
    pub fn new(page: &Page) -> SpringParts {
        SpringParts {
            rate: Boxes::new(
                page,
                "spring-rate",
                &SPRING,
                |document| Some(document.layout.spring.clone()),
                |spring| Part::Spring(Box::new(spring)),
            ),
            on: choice(page, "spring-on", &RIDES, |page, at| {
                let spring = page.with(|app| {
                    let layout = &app.document.layout;
                    layout.spring.riding_on(rides(at), layout)
                });
                page.send(Part::Spring(Box::new(spring)));
            }),
            line: (
                part(page, "own-line", |layout, own| {
                    let spring = &layout.spring;
                    Part::Spring(Box::new(if own { spring.on_own_line(layout) } else { spring.along_strut() }))
                }),
                find("own-line-of"),
            ),
            rocker: (
                find("rocker-axis"),
                Boxes::new(page, "rocker-axis", &ROCKER, |document| document.layout.spring.rocker, Part::Rocker),
            ),
            bar: (
                choice(page, "bar-on", &RIDES, |page, at| {
                    let bar = page.with(|app| app.document.layout.anti_roll_bar);
                    page.send(Part::Bar(bar.map(|bar| AntiRollBar { on: rides(at), ..bar })));
                }),
                Boxes::new(
                    page,
                    "bar-stiffness",
                    BAR.iter().filter(|field| field.key == "stiffness"),
                    |document| document.layout.anti_roll_bar,
                    |bar| Part::Bar(Some(bar)),
                ),
            ),
        }
    }

    /// Shows them.
    pub fn show(&self, app: &App) {
        let spring = &app.document.layout.spring;
        self.rate.show(Some(spring));
        self.on.set_selected_index(place(spring.on));
        self.line.1.set_hidden(spring.on != SpringOn::Strut);
        self.line.0.set_checked(spring.foot.is_some());
        self.rocker.0.set_hidden(spring.rocker.is_none());
        self.rocker.1.show(spring.rocker.as_ref());
        let bar = app.document.layout.anti_roll_bar;
        self.bar.0.set_selected_index(bar.map_or(-1, |bar| place(bar.on)));
        self.bar.1.show(bar.as_ref());
    }
}
