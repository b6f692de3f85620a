//! How thick parts are: an empty box is the usual size, which it shows pale.

use crate::app::{App, Bulk};
use crate::browser::dom::{Shown, find, make, set};
use crate::browser::page::Page;
use crate::panes::number_box::NumberBox;
use crate::text::number::plain;
use kernel::field::SOLID;
use kernel::{Solid, Wheel};
use web_sys::Element;

/// The boxes.
pub struct Thick {
    sizes: Vec<NumberBox>,
    rim: NumberBox,
    usual_rim: Shown,
}

fn solid(app: &App) -> Solid {
    app.document.layout.solid.clone().unwrap_or_default()
}

impl Thick {
    /// Finds their place on the page.
    pub fn new(page: &Page) -> Thick {
        let place: Element = find("thicknesses");
        let named = |name: &str| -> Element {
            let label: Element = make(&place, "label");
            make::<Element>(&label, "span").set_text_content(Some(name));
            label
        };
        let size = |field: &'static kernel::field::Field<Solid>| {
            let title = field.title();
            let number = NumberBox::blank(page, &named(&title), &title, move |page, value| {
                let mut changed = page.with(solid);
                (field.set)(&mut changed, value.unwrap_or((field.get)(&Solid::default())));
                page.send(Bulk::Solid(changed));
            });
            set(&number.input, "placeholder", &plain((field.get)(&Solid::default())));
            number
        };
        let sizes = SOLID.iter().map(size).collect();
        let title = "rim, inside radius, mm";
        let rim = NumberBox::blank(page, &named(title), title, |page, value| page.send(Bulk::Rim(value)));
        Thick { sizes, usual_rim: Shown::attribute(rim.input.clone(), "placeholder"), rim }
    }

    /// Shows them.
    pub fn show(&self, app: &App) {
        let (given, usual) = (solid(app), Solid::default());
        for (field, number) in SOLID.iter().zip(&self.sizes) {
            let size = (field.get)(&given);
            number.show(&if size == (field.get)(&usual) { String::new() } else { plain(size) });
        }
        let wheel = &app.document.layout.wheel;
        self.rim.show(&wheel.rim_radius.map_or(String::new(), plain));
        let usual = Wheel { rim_radius: None, ..wheel.clone() };
        self.usual_rim.show(&plain((usual.rim_radius() * 10.0).round() / 10.0));
    }
}
