//! Text for a forum post, and a snippet that embeds the page in another one.

use super::as_built;
use crate::app::{App, Told};
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

/// The pinned readings, a line each: name, value, unit.
pub(super) fn readings(app: &App) -> Vec<String> {
    let line = |reading: &'static Reading| {
        let told = match app.told(reading, app.study.good.value(reading)) {
            Told::Hidden => "?".into(),
            Told::Value(value) => app.document.units.with_unit(value, reading),
        };
        format!("{} {told}", reading.full_name())
    };
    app.document.pinned.iter().filter_map(|column| Reading::named(column)).map(line).collect()
}

/// A snippet that embeds the link's state in another page.
pub fn snippet(link: &str) -> String {
    let (page, parameters) = link.split_once('#').unwrap_or((link, ""));
    format!(
        "<iframe src=\"{page}#{}&amp;embed=1\" title=\"Front axle, interactive drawing\" width=\"640\" height=\"560\" loading=\"lazy\"></iframe>\n",
        parameters.replace('&', "&amp;")
    )
}
