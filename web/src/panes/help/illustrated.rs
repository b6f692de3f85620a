//! The figures of a page of help. Each says in its markup which state it shows (`data-shows`, a link's parameters), what is drawn of it (`data-draws`) and
//! which readings are told (`data-tells`); the picture, its numbers and the link that opens it are made here.

use crate::browser::dom::{make, set};
use crate::drawing::Theme;
use crate::exchange::illustration::Illustration;
use crate::text::number::Units;
use web_sys::Element;

/// Makes all figures of an article, anew if they are there; `mark` sets their clips apart from those of other pictures on the page.
pub fn illustrate(article: &Element, units: Units, theme: Theme, mark: &str) {
    let figures = article.get_elements_by_tag_name("figure");
    for at in 0..figures.length() {
        let Some(figure) = figures.item(at) else { continue };
        let Some(caption) = figure.get_elements_by_tag_name("figcaption").item(0) else { continue };
        clear(&figure);
        let said = |name: &str| figure.get_attribute(name).unwrap_or_default();
        let shows = said("data-shows");
        match Illustration::read(&shows, &said("data-draws"), &said("data-tells"), units) {
            Ok(made) => fill(&figure, &caption, &made, &shows, (theme, &format!("{mark}-{at}-"))),
            Err(sentence) => made_in(&caption, "p", "made").set_text_content(Some(&sentence)),
        }
    }
}

/// A new element that is taken away when the figure is made anew.
fn made_in(parent: &Element, tag: &str, class: &str) -> Element {
    let element = make(parent, tag);
    set(&element, "class", class);
    element
}

/// Takes away what was made before.
fn clear(figure: &Element) {
    let made = figure.get_elements_by_class_name("made");
    while let Some(element) = made.item(0) {
        element.remove();
    }
}

fn fill(figure: &Element, caption: &Element, made: &Illustration, shows: &str, (theme, mark): (Theme, &str)) {
    let picture = made_in(figure, "div", "made picture");
    // Before the caption.
    let _ = figure.insert_before(&picture, Some(caption));
    set(&picture, "role", "img");
    set(&picture, "aria-label", &made.name());
    picture.set_inner_html(&made.svg(theme, mark));
    if made.is_curve() {
        let name = made_in(caption, "b", "made");
        name.set_text_content(Some(&made.name()));
        let _ = caption.insert_before(&name, caption.first_child().as_ref());
    }
    let numbers = made_in(caption, "p", "made numbers");
    for number in made.numbers() {
        let told: Element = make(&numbers, "span");
        told.set_text_content(Some(&format!("{} ", number.name)));
        make::<Element>(&told, "b").set_text_content(Some(&number.value));
        if let Some(other) = number.laid_over {
            let over: Element = make(&told, "i");
            over.set_text_content(Some(&format!(" (laid over {other})")));
        }
    }
    let link = made_in(caption, "a", "made");
    set(&link, "href", &format!("#{}", made.link(shows)));
    link.set_text_content(Some("Open this state"));
}
