//! Help: how to use the page stands in the page itself; six illustrated pages (`web/help`) are fetched when the first of them is opened. Which one is read
//! stands in the address, so that each can be linked, and the way back from a state that it opens leads to it again.

mod illustrated;
mod start;

use crate::browser::dom::{find, make, on, set, window};
use crate::browser::page::Page;
use crate::browser::window::on_theme;
use crate::browser::{address, files};
use crate::drawing::Theme;
use crate::text::caution::CAUTION;
use illustrated::illustrate;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlDialogElement, HtmlElement};

/// The page that stands in the document; any that is not known is this one.
const START: &str = "start";

/// Says on the dialog which page is read.
const READ: &str = "data-read";

fn dialog() -> HtmlDialogElement {
    find("help-page")
}

/// Lets help be opened: by its button, and by the address now and whenever that changes. Once the page follows its address itself, which it then writes.
pub fn furnish(page: &Page) {
    let opened = page.clone();
    on(&find::<Element>("help"), "click", move |_: Event| open(&opened, START.into()));
    let followed = page.clone();
    on(&window(), "hashchange", move |_: Event| follow(&followed));
    let closed = page.clone();
    on(&dialog(), "close", move |_: Event| closed.write_address());
    let themed = page.clone();
    on_theme(move || picture(&themed));
    let linked = page.clone();
    on(&find::<Element>("help-link"), "click", move |_: Event| {
        linked.copy(address::help_link(&read().unwrap_or_default()), "Link to this page copied");
    });
    on(&find::<Element>("help-print"), "click", |_: Event| {
        // Fails where the browser does not print; nothing is lost.
        let _ = window().print();
    });
    if address::help().is_some() {
        follow(page);
    }
}

/// Opens the page of help that the address names; without one there is none open.
fn follow(page: &Page) {
    match address::help() {
        Some(name) => open(page, name),
        None => dialog().close(),
    }
}

/// Opens a page of help, and says so in the address.
fn open(page: &Page, name: String) {
    set(&dialog(), READ, &name);
    if !dialog().open() {
        // Fails only if it is open already.
        let _ = dialog().show_modal();
    }
    page.write_address();
    find::<HtmlElement>("help-missing").set_hidden(true);
    let pages: Element = find("help-pages");
    if name == START || pages.child_element_count() > 0 {
        return turn(page);
    }
    let page = page.clone();
    spawn_local(async move {
        let text = files::text(&dialog().get_attribute("data-pages").unwrap_or_default()).await;
        if let (Some(text), 0) = (&text, pages.child_element_count()) {
            pages.set_inner_html(text);
        }
        find::<HtmlElement>("help-missing").set_hidden(text.is_some());
        turn(&page);
    });
}

/// The page of help that is read, if it is one of those that are fetched and has come.
pub fn read() -> Option<String> {
    let name = dialog().get_attribute(READ).filter(|_| dialog().open())?;
    article(&name).map(|_| name)
}

fn article(name: &str) -> Option<HtmlElement> {
    let all = find::<Element>("help-pages").children();
    let named = (0..all.length()).filter_map(|at| all.item(at)).find(|article| article.id() == format!("help-{name}"));
    named.map(|article| find(&article.id()))
}

/// Shows the page that is read in place of the one before, from its top.
fn turn(page: &Page) {
    let read = read();
    let all = find::<Element>("help-pages").children();
    for article in (0..all.length()).filter_map(|at| all.item(at)) {
        let here = read.as_ref().is_some_and(|name| article.id() == format!("help-{name}"));
        find::<HtmlElement>(&article.id()).set_hidden(!here);
    }
    find::<HtmlElement>("help-start").set_hidden(read.is_some());
    find::<HtmlElement>("help-passing").set_hidden(read.is_none());
    let links = find::<Element>("help-contents").get_elements_by_tag_name("a");
    for link in (0..links.length()).filter_map(|at| links.item(at)) {
        let here = link.get_attribute("href") == Some(format!("#help={}", read.as_deref().unwrap_or(START)));
        set(&link, "aria-current", if here { "page" } else { "false" });
    }
    if read.is_some() {
        picture(page);
    } else {
        start::furnish(page);
    }
    dialog().set_scroll_top(0);
    let shown = read.as_deref().and_then(article).unwrap_or_else(|| find("help-start"));
    if let Some(heading) =
        shown.get_elements_by_tag_name("h2").item(0).and_then(|heading| heading.dyn_into::<HtmlElement>().ok())
    {
        let _ = heading.focus();
    }
}

/// Makes the pictures of the page that is read.
fn picture(page: &Page) {
    if let Some(article) = read().as_deref().and_then(article) {
        illustrate(&article, page.with(|app| app.document.units), page.theme(), &article.id());
    }
}

/// Puts the page of help that is read on paper in place of the page's own sheet.
pub fn print(page: &Page) {
    let Some(name) = read() else { return };
    let Some(copy) = article(&name).and_then(|article| article.clone_node_with_deep(true).ok()) else { return };
    let sheet: Element = make(&find::<Element>("print"), "div");
    set(&sheet, "class", "print-help");
    let _ = sheet.append_child(&copy);
    illustrate(&sheet, page.with(|app| app.document.units), Theme::LIGHT, "printed");
    make::<Element>(&sheet, "p").set_text_content(Some(&format!("{CAUTION} {}", address::help_link(&name))));
}
