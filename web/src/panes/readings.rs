//! The readings: now, at rest, least and greatest over travel, a sparkline; a click pins one to the curves.

use super::page;
use crate::app::{App, Message};
use crate::number::reading as shown;
use crate::plot::sparkline;
use kernel::{Group, READINGS, Reading, Unit};
use leptos::prelude::*;

const GROUPS: [(Group, &str); 4] = [
    (Group::Wheel, "Wheel"),
    (Group::SteeringAxis, "Steering axis"),
    (Group::LeverArms, "Lever arms"),
    (Group::Bump, "Bump"),
];

/// A sparkline's box, px.
const SPARK: [f64; 2] = [40.0, 16.0];

/// The table of readings.
#[component]
pub fn Readings() -> impl IntoView {
    let page = page();
    let stale = Memo::new(move |_| page.with(|app| app.study.trouble.is_some()));
    view! {
        <section class="readings" class:stale=move || stale.get() aria-label="Readings">
            <table>
                <thead>
                    <tr>
                        <th scope="col">"Reading, in mm or as marked"</th>
                        <th scope="col">"now"</th>
                        <th scope="col">"at rest"</th>
                        <th scope="col">"least"</th>
                        <th scope="col">"most"</th>
                        <th scope="col">"curve"</th>
                    </tr>
                </thead>
                {GROUPS.map(|(group, name)| view! {
                    <tbody>
                        <tr class="group"><th scope="rowgroup" colspan="6">{name}</th></tr>
                        {READINGS.iter().filter(|r| r.group == group).map(|reading| view! { <Row reading/> }).collect_view()}
                    </tbody>
                })}
            </table>
        </section>
    }
}

/// What stands behind a name where the unit is neither mm nor plain degrees.
fn unit(reading: &Reading) -> &'static str {
    match reading.unit {
        Unit::MillimetrePerRadian => "mm/rad",
        Unit::DegreePerMillimetre => "°/10 mm",
        Unit::Millimetre | Unit::Degree | Unit::One => "",
    }
}

#[component]
fn Row(reading: &'static Reading) -> impl IntoView {
    let page = page();
    let value = move |read: fn(&App, &Reading) -> Option<f64>| {
        move || page.with(|app| shown(read(app, reading), reading.unit))
    };
    let pinned = Memo::new(move |_| page.with(|app| app.document.pinned.contains(&reading.column)));
    let spark = move || {
        page.with(|app| {
            let good = &app.study.good;
            sparkline(&good.over_travel, &good.now, reading, SPARK)
        })
    };
    let title = format!("{} {}\nPositive: {}.\n{}\nSource: {}.", reading.name, reading.meaning, reading.positive, reading.formula, reading.source);
    view! {
        <tr class:pinned=move || pinned.get() data-reading=reading.column>
            <th scope="row">
                <button title=title aria-pressed=move || pinned.get().to_string() on:click=move |_| page.send(Message::Pin(reading.column))>
                    {reading.name}<small>{unit(reading)}</small>
                </button>
            </th>
            <td class="now">{value(|app, r| (r.value)(&app.study.good.now))}</td>
            <td>{value(|app, r| (r.value)(&app.study.good.rest))}</td>
            <td>{value(|app, r| app.study.good.over_travel.range(r.value).map(|range| range.0))}</td>
            <td>{value(|app, r| app.study.good.over_travel.range(r.value).map(|range| range.1))}</td>
            <td class="spark">
                <svg width=SPARK[0] height=SPARK[1] aria-hidden="true">
                    <path d=move || spark().map(|(path, _)| path).unwrap_or_default()/>
                    <circle r="2.5" cx=move || spark().map_or(-9.0, |(_, [x, _])| x) cy=move || spark().map_or(-9.0, |(_, [_, y])| y)/>
                </svg>
            </td>
        </tr>
    }
}
