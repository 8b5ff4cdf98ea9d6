//! Belt drive from the engine's shaft to its load.

use super::pulley;
use crate::catalogue::belts::{BeltSection, belt_section, belt_sections, centres_mm};
use crate::sizing::decide::Decide;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{Belt, Output};

/// Most teeth of a pulley here; makers list pulleys up to 120 teeth or so (common practice, no source).
const MOST_TEETH: usize = 120;
/// Farthest that the teeth may be off the ratio asked for.
const OFF: f64 = 0.03;
/// Room between the flywheel's rim and the load's shaft, and between both pulleys \[mm\]; common practice, no source.
const ROOM_MM: f64 = 20.0;

/// Teeth on engine and load: small pulleys at a ratio close by. One part in a hundred counts as much as five teeth.
fn teeth(ratio: f64, least: usize) -> Option<[usize; 2]> {
    let all = (least..=MOST_TEETH).flat_map(|engine| (least..=MOST_TEETH).map(move |load| [engine, load]));
    let off = |[engine, load]: [usize; 2]| (engine as f64 / load as f64 / ratio).ln().abs();
    let worth = |t: [usize; 2]| 500.0 * off(t) + (t[0] + t[1]) as f64;
    all.filter(|t| off(*t) <= OFF).min_by(|a, b| worth(*a).total_cmp(&worth(*b)))
}

/// Shortest stocked belt at which the shafts stand `least` \[mm\] apart or more: length and centres \[mm\].
fn belt(d: &Decide, section: &BeltSection, [engine, load]: [usize; 2], least: f64) -> Option<[f64; 2]> {
    let diameters = [section.pitch_diameter_mm(engine), section.pitch_diameter_mm(load)];
    d.design
        .catalogue
        .belts_of(&section.name)
        .filter(|l| l.common() || l.from.is_own())
        .filter_map(|l| Some([l.pitch_length_mm, centres_mm(diameters[0], diameters[1], l.pitch_length_mm)?]))
        .filter(|[_, centres]| *centres >= least)
        .min_by(|a, b| a[0].total_cmp(&b[0]))
}

/// The drive of the load; `None` where the design has no load, its ratio is not known, or no two pulleys and no stocked belt
/// give it. `shaft` and `wheel` \[mm\] are the diameters of shaft and flywheel.
pub fn size(d: &mut Decide, shaft: f64, wheel: f64) -> Option<Output> {
    let design = d.design;
    let load = &design.load;
    load.kind.as_ref()?;
    let asked = load.speed_ratio.as_ref()?;
    let name = load.belt_section.value.name();
    let section = d.look_up("load.belt_section", belt_section(name)).unwrap_or(&belt_sections()[0]);
    let found = teeth(asked.value, pulley::least_teeth(section, shaft))?;
    let outside: f64 = found.iter().map(|z| section.outside_diameter_mm(*z)).sum();
    let least = (0.5 * wheel + ROOM_MM).max(0.5 * outside + ROOM_MM);
    let [length_mm, centres_mm] = belt(d, section, found, least)?;
    let wanted = d.setting("load.speed_ratio", asked, Unit::Ratio);
    let width = d.mm("load.belt_width", &load.belt_width_mm);
    let why =
        ("small pulleys within 3 % of the ratio, with metal around the shaft", "common practice, no source");
    let inputs = ["load.speed_ratio", "drive.journal_bearing"];
    d.rule_in("load.engine_teeth", found[0] as f64, Unit::Count, why, &inputs);
    d.rule_in("load.load_teeth", found[1] as f64, Unit::Count, why, &inputs);
    d.rule(
        "load.least_centres",
        least,
        "wheel / 2 or both pulleys / 2, + 20 mm",
        &["flywheel.diameter", "load.engine_teeth", "load.load_teeth"],
    );
    let target = "the shortest stocked belt at which wheel and pulleys pass";
    let inputs = ["load.engine_teeth", "load.load_teeth", "load.least_centres"];
    d.solved("load.belt_length", length_mm, target, 0.0, &inputs);
    d.solved(
        "load.belt_centres",
        centres_mm,
        "the belt's length around both pulleys",
        0.0,
        &["load.belt_length"],
    );
    let pulley = Belt { length_mm, ..pulley::sizes(section, found[0], width, shaft) };
    Some(Output { pulley, mate_teeth: found[1], wanted, centres_mm })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn teeth_give_the_ratio() {
        assert_eq!(teeth(0.2, 22), Some([22, 110]));
        assert_eq!(teeth(1.0, 18), Some([18, 18]));
        let [engine, load] = teeth(2.31, 20).unwrap();
        assert!((engine as f64 / load as f64 / 2.31 - 1.0).abs() < 0.02, "{engine} {load}");
        assert_eq!(teeth(0.05, 20), None);
    }
}
