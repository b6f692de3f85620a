//! Axles drawn with a seed: the same natively and in WebAssembly, and those of `reference/vary_reference.py`, whose generator and solver are its own.
//! Included by the tests of both (`tests/tests/kernel/aims_witness.rs`, `web/tests/wasm.rs`).

use kernel::vary::spread::{Asked, Spread};
use kernel::vary::{Outcome, Random};
use kernel::{Layout, LeftOrRight};
use serde_json::Value;

/// Poses of two solvers differ by no more, degrees: each is solved to 1e-11 mm or less, over joints some hundred mm apart.
const SAME: f64 = 1e-9;

/// FNV-1a of 64 bits (G. Fowler, L. C. Noll, K.-P. Vo), over the bytes of floats, least first.
fn fnv(numbers: impl Iterator<Item = f64>) -> String {
    let mix = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    let hash = numbers.flat_map(f64::to_le_bytes).fold(0xcbf2_9ce4_8422_2325, mix);
    format!("{hash:016x}")
}

/// What is drawn, bit for bit, and what the first axles read.
pub fn same_samples(reference: &Value) {
    let entries = reference["samples"].as_array().expect("a list");
    assert_eq!(entries.len(), 2);
    for entry in entries {
        let layout =
            Layout::from_value(&reference["layouts"][entry["axle"].as_str().expect("a name")]).expect("a layout");
        let asked = Asked::from_json(&entry["errors"].to_string(), &layout).expect("errors");
        let seed = entry["seed"].as_u64().expect("a seed");
        let mut random = Random::seeded(seed);
        let drawn: Vec<f64> = (0..1000).flat_map(|_| asked.errors.draw(&mut random)).collect();
        assert_eq!(fnv(drawn.into_iter()), entry["hash"], "{}", entry["errors"]);
        let mut spread = Spread::new(&layout, LeftOrRight::Left, &asked, seed, |_| true).expect("an axle");
        let rows = entry["rows"].as_array().expect("rows");
        let read = |row: &Value| -> Vec<f64> {
            row[2].as_array().expect("readings").iter().map(|value| value.as_f64().expect("a number")).collect()
        };
        (0..read(&rows[0]).len()).for_each(|_| spread.draw());
        assert_eq!((rows.len(), spread.failed), (6, 0));
        for row in rows {
            let is = |at: &Outcome| row[1] == at.quantity.column() && row[0].as_f64() == Some(at.travel);
            let at = spread.outcomes().iter().position(is).expect("an outcome");
            for (is, should) in spread.samples(at).iter().zip(read(row)) {
                assert!((is - should).abs() < SAME, "{row}: {is} and {should}");
            }
        }
    }
}
