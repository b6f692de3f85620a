//! A tyre's size by its designation, against published design diameters.

use kernel::TyreSize;
use proptest::prelude::*;
use tests::{cases, near};

fn size(text: &str) -> TyreSize {
    TyreSize::parse(text).unwrap_or_else(|| panic!("{text}"))
}

/// Design overall diameters, mm, from the ETRTO standards manual's tables (published; from memory).
#[test]
fn a_free_radius_is_half_the_published_diameter() {
    for (text, diameter) in [
        ("205/55 R16", 632.0),
        ("225/45 R17", 634.0),
        ("195/65 R15", 635.0),
        ("175/70 R13", 576.0),
        ("185/65 R14", 596.0),
    ] {
        // The tables are to the mm, of a diameter.
        near(size(text).free_radius(), diameter / 2.0, 0.5, text);
    }
    near(size("225/45 R17").loaded_radius(), 0.96 * 317.15, 1e-9, "loaded");
}

#[test]
fn people_write_a_size_in_many_ways() {
    let should = TyreSize { width: 225.0, aspect: 45.0, rim: 17.0 };
    for text in [
        "225/45 R17",
        "225/45R17",
        "225/45r17",
        " 225 / 45 zr 17 ",
        "225/45 ZR17 94W",
        "P225/45R17",
        "225/45-17",
        "225/45 R17 94W XL",
        "225/45/17",
        "225/45 17",
        "225/45R17C",
    ] {
        assert_eq!(TyreSize::parse(text), Some(should), "{text}");
    }
    assert_eq!(size("7,5/80 R20.5".replace("7,5", "207.5").as_str()).rim, 20.5);
    assert_eq!(should.to_string(), "225/45 R17");
    assert_eq!(TyreSize::parse(&should.to_string()), Some(should));
    for text in [
        "",
        "225",
        "225/45",
        "225/45 R",
        "22/45 R17",
        "225/4 R17",
        "225/45 R170",
        "2254/5 R17",
        "x",
        "/45 R17",
        "225/45 R17/2",
        "225/45 R1é",
    ] {
        assert_eq!(TyreSize::parse(text), None, "{text}");
    }
}

proptest! {
    #![proptest_config(cases(500))]

    #[test]
    fn any_text_is_a_size_or_none(text in "\\PC{0,24}|[0-9/ ,.rRzZ-]{0,16}") {
        if let Some(size) = TyreSize::parse(&text) {
            prop_assert!(size.free_radius() > 100.0 && size.free_radius() < 1_000.0);
        }
    }
}
