//! Text for a forum post, and a snippet that embeds the page in another one.

use super::as_built;
use super::before::Before;
use crate::app::App;
use crate::document::Document;
use kernel::Reading;

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

/// A text block for a post: name, position, pinned readings, link; beside another axle, or this one as opened, each reading before and now, and
/// what has been changed.
pub fn post(app: &App, link: &str, markup: Markup) -> String {
    let name = &app.document.layout.name;
    let at = format!("travel {:.1} mm, rack {:.1} mm", app.document.travel, app.document.rack);
    let before = Before::of(app);
    let at = match &before {
        Some(before) => format!("{at}; {} → now", before.name),
        None => at,
    };
    let mut lines = readings(app, before.as_ref());
    lines.extend(as_built::unusual(app));
    lines.extend(before.iter().flat_map(|before| before.different(&app.document.layout, app.document.units)));
    match markup {
        Markup::Plain => format!("{name} ({at})\n{}\n{link}\n", lines.join("\n")),
        Markup::Markdown => {
            let lines: String = lines.iter().map(|line| format!("- {}\n", escaped(line))).collect();
            format!("**{}** ({})\n\n{lines}\n[Open it]({link})\n", escaped(name), escaped(&at))
        }
        Markup::BbCode => {
            let [name, at] = [name, &at].map(|text| text.replace(['[', ']'], ""));
            let lines: String = lines.iter().map(|line| format!("[*]{line}\n")).collect();
            format!("[b]{name}[/b] ({at})\n[list]\n{lines}[/list]\n[url={link}]Open it[/url]\n")
        }
    }
}

/// What Markdown would take for a sign of its own is text.
fn escaped(text: &str) -> String {
    text.chars().flat_map(|c| if r"\`*_[]<>#|".contains(c) { vec!['\\', c] } else { vec![c] }).collect()
}

/// The pinned readings, a line each: name, value, unit; beside another axle both values and their difference.
pub(super) fn readings(app: &App, before: Option<&Before>) -> Vec<String> {
    let line = |reading: &'static Reading| {
        let told = match before {
            Some(before) => before.and_now(app, reading),
            None => app.told(reading, app.study.good.value(reading)).with_unit(reading, app.document.units),
        };
        format!("{} {told}{}", reading.full_name(), app.printed_plus_minus(reading))
    };
    app.document.pinned.iter().filter_map(|column| Reading::named(column)).map(line).collect()
}

/// An answer to whoever posted what was opened: the present axle over that one, as a comparison shows them. `None` while nothing of the axle
/// has been changed.
pub fn reply(app: &App) -> Option<Document> {
    let opened = &app.opened().layout;
    let changed = opened != &app.document.layout;
    changed.then(|| Document { compared: Some(opened.clone()), ..app.document.clone() })
}

/// A snippet that embeds the link's state in another page.
pub fn snippet(link: &str) -> String {
    let (page, parameters) = link.split_once('#').unwrap_or((link, ""));
    format!(
        "<iframe src=\"{page}#{}&amp;embed=1\" title=\"Front axle, interactive drawing\" width=\"640\" height=\"560\" loading=\"lazy\"></iframe>\n",
        parameters.replace('&', "&amp;")
    )
}
