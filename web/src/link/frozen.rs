//! The demos as links of version 3 mean them: frozen for ever, whatever becomes of the demos of the page. A demo that is changed there gets a line
//! of its own here, with its next version, and the old line stays.

use super::absent;
use std::sync::LazyLock;

/// A demo of one version.
pub struct Demo {
    /// Its file's name and its version, joined by `.`.
    pub name: &'static str,
    /// Names and values of its parameters.
    pub pairs: Vec<(&'static str, &'static str)>,
}

/// Stands in for one that is not known.
pub const FIRST: &str = "four-arm.1";

const TEXTS: [(&str, &str); 6] = [
    (
        "strut.1",
        "name=Harbour_shuttle%2C_strut_and_wishbone&\
         note=The_axis_runs_from_the_top_mount_to_the_ball_joint%2C_far_inboard_of_the_wheel_centre._Drive_forces_have_a_long_lever_arm.&\
         wheel=0_765_305_-0.5_0.1_305_316_205&lower=wishbone&lf=-5_365_209.9&lr=-320_380_229.3&lo=6.2_726.9_193.8&upper=strut&\
         us=-33.9_562_850_-6_612_330&tr=-135_330.4_250.4_-130_690_237.4&gear=75_52_subframe&spring=strut_25&\
         shaft=-15_215_320_0_700_305",
    ),
    (
        "double-wishbone.1",
        "name=Harbour_shuttle%2C_two_wishbones&note=The_axis_runs_through_both_ball_joints%2C_further_out%2C_and_leans_less.&\
         wheel=0_765_305_-0.5_0.1_305_316_205&lower=wishbone&lf=150_365_185&lr=-170_375_190&lo=6.7_731.2_175&upper=wishbone&\
         uf=100_440_500.5&ur=-140_445_499.3&uo=-22.6_684.3_510&tr=-125_359.6_226.5_-120_690_218.6&gear=75_52_subframe&\
         spring=lower_60_-10_560_640_0_600_182&shaft=-15_215_320_0_700_305",
    ),
    (
        "strut-over-arms.1",
        "name=Harbour_shuttle%2C_strut_over_two_arms&\
         note=The_wishbone_is_split._The_lower_end_of_the_axis_is_where_the_lines_of_its_two_arms_come_closest.&\
         wheel=0_765_305_-0.5_0.1_305_316_205&lower=arms&lf=12_368_209.8_7.5_724.4_192&lr=-318_392_221.6_-35.1_707.1_196&upper=strut&\
         us=-44.7_596.7_850_-6_612_330&tr=-135_331.6_252.6_-130_690_235.4&gear=75_52_subframe&spring=strut_25&\
         shaft=-15_215_320_0_700_305",
    ),
    (
        "wishbone-over-arms.1",
        "name=Harbour_shuttle%2C_wishbone_over_two_arms&note=One_wishbone_above%2C_two_arms_below%2C_the_rack_ahead_of_the_axle.&\
         wheel=0_765_305_-0.5_0.1_305_316_205&lower=arms&lf=20_340_188.4_11.3_696.6_178&lr=-330_420_210.8_-56.6_683.1_186&\
         upper=wishbone&uf=90_430_619&ur=-165_430_640.6&uo=-31.3_703.7_656&tr=118_358.6_234.2_112_700_229.1&gear=75_52_subframe&\
         spring=lower.front_70_10_540_760_14_590_190&shaft=-15_215_320_0_700_305",
    ),
    (
        "four-arm.1",
        "name=Harbour_shuttle%2C_four_arms&note=Both_wishbones_are_split._The_virtual_axis_runs_close_to_the_wheel_centre.&\
         wheel=0_765_305_-0.5_0.1_305_316_205&lower=arms&lf=20_340_188.4_12_707.2_178&lr=-330_420_210.8_-62.8_688.7_186&upper=arms&\
         uf=95.2_430_625.3_1.3_670_655&ur=-175_430_636.2_-55.9_672_655&tr=-135_371.4_297.3_-130_690_297.8&gear=75_52_subframe&\
         spring=lower.front_70_10_540_760_14_590_190&shaft=-15_215_320_0_700_305",
    ),
    (
        "five-rod-unsteered.1",
        "name=Harbour_shuttle%2C_five_rods%2C_unsteered&note=The_rear_wheel_of_the_same_car._Five_rods_and_no_rack.&\
         wheel=0_760_305_-1_0.15_305_316_225&lower=arms&lf=190_400_241_40_690_215&lr=-60_330_207.7_-20_700_190&upper=arms&\
         uf=150_430_434.3_30_665_440&ur=-40_420_422.6_-30_660_430&tr=-150_336.4_250.1_-150_690_235&gear=none&\
         spring=lower.rear_75_-45_540_560_-38_560_197",
    ),
];

static DEMOS: LazyLock<Vec<Demo>> = LazyLock::new(|| {
    let pairs = |text: &'static str| text.split('&').filter_map(|pair| pair.split_once('=')).collect();
    TEXTS.iter().map(|(name, text)| Demo { name, pairs: pairs(text) }).collect()
});

/// The demo of a name.
pub fn demo(name: &str) -> Option<&'static Demo> {
    DEMOS.iter().find(|demo| demo.name == name)
}

/// The demo with the same guides from which the least has to be said to say this; `None` if nothing is gained by any.
pub fn nearest(own: &[(String, String)]) -> Option<&'static Demo> {
    let of = |name: &str| own.iter().find(|(key, _)| key == name).map(|(_, value)| value.as_str());
    let same_kind = |demo: &&Demo| ["lower", "upper"].iter().all(|name| demo.value(name) == of(name));
    let whole = length(own, |name| absent::LAYOUT.iter().find(|(key, _)| *key == name).map(|(_, value)| *value));
    let least = |demo: &'static Demo| (demo, demo.name.len() + length(own, |name| demo.value(name)));
    let demos = DEMOS.iter().filter(same_kind).map(least);
    demos.min_by_key(|(_, length)| *length).filter(|(_, length)| *length < whole).map(|(demo, _)| demo)
}

impl Demo {
    fn value(&self, name: &str) -> Option<&'static str> {
        self.pairs.iter().find(|(key, _)| *key == name).map(|(_, value)| *value)
    }
}

/// How much has to be said where this is known, letters.
fn length(own: &[(String, String)], known: impl Fn(&str) -> Option<&'static str>) -> usize {
    let said = own.iter().filter(|(name, value)| known(name) != Some(value.as_str()));
    said.map(|(name, value)| name.len() + value.len()).sum()
}
