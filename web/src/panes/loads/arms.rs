//! What the members bear over all cases, what is left of what they could, and how far their joints swing.

use super::change;
use crate::app::{App, Show};
use crate::browser::dom::{Shown, find};
use crate::browser::page::Page;
use crate::document::Loads;
use crate::panes::boxes::{Boxes, Fold, Number, choice};
use crate::panes::rows::Rows;
use crate::study::loaded::{self, Bent, MemberRow};
use crate::text::number::{fixed, signed};
use kernel::{LoadCase, Material, PointId, Section};
use web_sys::{Element, HtmlSelectElement};

const SIZES: [Number<Loads>; 2] = [
    ("outer Ø, mm, or area, mm²", |l| section_size(l)[0], |l, x| l.section = resized(l.section, 0, x)),
    ("wall, mm, or second moment of area, mm⁴", |l| section_size(l)[1], |l, x| l.section = resized(l.section, 1, x)),
];

const LIMITS: [Number<Loads>; 1] = [("allowed angle, degrees", |l| l.swing, |l, x| l.swing = x)];

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

/// Members, section and material, swing.
pub struct Arms {
    members: Rows,
    all: Rows,
    material: HtmlSelectElement,
    section: HtmlSelectElement,
    sizes: Boxes<Loads>,
    bent: Shown,
    mass: Shown,
    swings: (Fold, Rows, Boxes<Loads>),
}

impl Arms {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Arms {
        let boxes =
            |place, numbers| Boxes::of_numbers(page, place, numbers, |document| Some(document.loads), Show::Loads);
        Arms {
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
            sizes: boxes("section-size", &SIZES),
            bent: Shown::text(find::<Element>("arm-bent")),
            mass: Shown::text(find::<Element>("arm-mass")),
            swings: (Fold::around(page, "swings"), Rows::new("swings"), boxes("swing-limit", &LIMITS)),
        }
    }

    /// Shows them.
    pub fn show(&self, app: &App) {
        self.members(app);
        self.swings(app);
    }

    fn members(&self, app: &App) {
        let loads = &app.document.loads;
        let rows = app.members();
        let kilo = |newton: f64| signed(newton / 1000.0, 2);
        let shown = rows.iter().map(|row| {
            let case = |extreme: Option<(f64, usize)>| {
                extreme.map_or("–".into(), |(force, at)| format!("{} {}", kilo(force), LoadCase::all()[at].key))
            };
            let unknown = if row.bent == Bent::No { "–" } else { "unknown" };
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
        let cells = |row: &MemberRow| {
            [row.name.to_string()].into_iter().chain(row.cases.iter().map(|f| f.map_or("–".into(), kilo))).collect()
        };
        self.all.show([heading].into_iter().chain(rows.iter().map(cells)).collect());
        self.mass.show(&format!(
            "All rods and legs with this section: {} kg in steel, {} kg in aluminium. Buckling depends on stiffness, and aluminium has only a third of steel’s: the section must be thicker, yet is still lighter.",
            fixed(loaded::mass(rows, loads.section, Material::Steel), 2),
            fixed(loaded::mass(rows, loads.section, Material::Aluminium), 2)
        ));
        self.sizes.show(Some(loads));
        self.material.set_selected_index(i32::from(loads.material == Material::Aluminium));
        self.section.set_selected_index(i32::from(matches!(loads.section, Section::Given { .. })));
    }

    fn swings(&self, app: &App) {
        if !self.swings.0.is_open() {
            return;
        }
        let limit = app.document.loads.swing;
        let row = |swing: &kernel::Swing| {
            let over = if swing.most > limit { "!" } else { "" };
            let [travel, rack] = swing.at.map(|mm| signed(mm, 0));
            vec![
                PointId::name(swing.joint).to_string(),
                format!("{over}{}°", fixed(swing.most, 1)),
                format!("{travel}, {rack}"),
            ]
        };
        self.swings.1.show(app.study.good.swings().iter().map(row).collect());
        self.swings.2.show(Some(&app.document.loads));
    }
}

/// What the spring bends, in words.
fn bent(row: &MemberRow) -> Option<String> {
    match &row.bent {
        Bent::No => None,
        Bent::Frame => Some("The spring bends the wishbone it is mounted on; this bending is not calculated.".into()),
        Bent::By(bends) => {
            let moments = bends.iter().enumerate().filter_map(|(at, bent)| Some((at, bent.as_ref()?.moment)));
            let (at, most) = moments.max_by(|a, b| a.1.total_cmp(&b.1))?;
            let (most, case) = (fixed(most / 1000.0, 0), LoadCase::all()[at].name);
            Some(format!(
                "The spring bends the {} arm with up to {most} N·m ({}). The force along the arm differs on the two sides of the spring mount; the worse side counts.",
                row.name,
                case.to_ascii_lowercase()
            ))
        }
    }
}
