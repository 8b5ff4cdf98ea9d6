//! `swept size`: what the engine will do and where every number came from.

use super::Global;
use super::checks;
use super::design_file::{DesignFile, Loaded, refuse};
use super::exit::Exit;
use super::output::{print, say};
use super::render::render;
use clap::Args;
use std::path::{Path, PathBuf};
use swept::design::{Design, write_settled};
use swept::pipeline::inspect;
use swept::sizing::answer::{Sized, judged_settled, size};
use swept::sizing::dimension::Unit;
use swept::sizing::drive_train;
use swept::sizing::search::Settled;
use swept::sizing::search::report::Report;
use swept::sizing::uncertain::most_of_the_band;

/// Say what the engine will do, and every dimension with where it came from.
#[derive(Args)]
#[command(
    before_help = "Examples:\n  swept size my-engine.toml\n  swept size my-engine.toml --why displacer.length\n  swept size my-engine.toml --json"
)]
pub struct Size {
    #[command(flatten)]
    design: DesignFile,
    /// Show the chain of one dimension down to what was given, for example --why piston.length.
    #[arg(long, value_name = "DIMENSION", conflicts_with = "json")]
    why: Option<String>,
    /// Print one JSON document with everything, also when the design is wrong.
    #[arg(long)]
    json: bool,
    /// Write the design with what was found for its open values to a new file; everything else stays as it is.
    #[arg(long, value_name = "FILE")]
    write_settled: Option<PathBuf>,
}

impl Size {
    pub fn run(&self, global: &Global) -> Exit {
        let loaded = match self.design.load(global, self.json) {
            Ok(loaded) => loaded,
            Err(exit) => return exit,
        };
        let settled = match loaded.settled(global, self.json) {
            Ok(settled) => settled,
            Err(exit) => return exit,
        };
        if let Some(exit) =
            self.write_settled.as_ref().and_then(|path| written(global, path, &loaded, &settled))
        {
            return exit;
        }
        // a chain of dimensions hangs on sizing alone: no need to work out all that the engine will do
        let answer = if self.why.is_some() {
            size(&drive_train::settled(&settled.design))
        } else {
            judged_settled(&settled).and_then(|mut sized| {
                inspect(&settled.design, &mut sized)?;
                Ok(sized)
            })
        };
        match answer {
            Ok(sized) => self.tell(global, &settled.design, &sized),
            Err(said) => refuse(&said, self.json),
        }
    }

    fn tell(&self, global: &Global, design: &Design, sized: &Sized) -> Exit {
        if self.json {
            return match serde_json::to_string_pretty(&sized.answer) {
                Ok(text) => print(&(text + "\n")),
                Err(error) => {
                    say(&format!("swept: could not write the result as JSON: {error}"));
                    Exit::Internal
                }
            };
        }
        if let Some(path) = &self.why {
            return match sized.engine.ledger.why(path) {
                Ok(tree) => print(&tree),
                Err(error) => {
                    say(&format!("swept: {error}"));
                    Exit::Usage
                }
            };
        }
        if !sized.warnings.is_empty() {
            say(&render(&sized.warnings));
        }
        let uncertain = if global.verbose { spreads(sized) } else { String::new() };
        let checks = checks::all(&sized.answer.checks);
        let exit =
            print(&(summary(design, sized) + &curve(sized) + &uncertain + &checks + &dimensions(sized)));
        if !global.quiet {
            say("next: swept build with the same file, or --why DIMENSION for one chain");
        }
        exit
    }
}

/// Writes the settled design; says how to end where that cannot be.
fn written(global: &Global, path: &Path, loaded: &Loaded, settled: &Settled) -> Option<Exit> {
    let text = String::from_utf8_lossy(&loaded.bytes);
    let (exit, error) = match write_settled(&text, &loaded.sets, &loaded.draft, &settled.design) {
        Err(error) => (Exit::Internal, error),
        Ok(_) if path.exists() => (Exit::File, "it exists and is left alone; choose another name".into()),
        Ok(text) => match swept::export::file::write(path, text.as_bytes()) {
            Err(error) => (Exit::File, error.to_string()),
            Ok(()) => {
                if !global.quiet {
                    say(&format!("wrote {}", path.display()));
                }
                return None;
            }
        },
    };
    say(&format!("swept: could not write {}: {error}", path.display()));
    Some(exit)
}

/// What the search found, for people.
pub fn searched(report: &Report) -> String {
    report.words().iter().map(|line| format!("  {line}\n")).collect()
}

/// What the engine will do, for people.
pub fn summary(design: &Design, sized: &Sized) -> String {
    let p = &sized.answer.operating_point;
    let e = &design.engine;
    let celsius = |k: f64| k - 273.15;
    let mut text = format!(
        "{}: {}, {} at {:.2} bar abs, hot {:.0} °C, cold {:.0} °C\n",
        e.name.value,
        e.layout.value.name(),
        e.gas.value,
        e.charge_pressure_pa.value / 1e5,
        celsius(sized.engine.hot_cap.temperature_k),
        celsius(sized.engine.cold.temperature_k),
    );
    text += &power(sized);
    text += &format!(
        "  heat in {:.1} W, heat out {:.1} W; pressure {:.2} to {:.2} bar abs\n",
        p.heat_in_w,
        p.heat_out_w,
        p.pressure_min_pa / 1e5,
        p.pressure_max_pa / 1e5
    );
    for reason in &sized.answer.verdict.reasons {
        text += &format!("  {reason}\n");
    }
    for words in beyond(sized) {
        text += &format!("  {words}\n");
    }
    if let Some(heat) = &sized.answer.heat {
        heat.words.iter().for_each(|words| text += &format!("  {words}\n"));
        heat.cautions.iter().for_each(|words| text += &format!("  caution: {words}\n"));
    }
    text += &sized.answer.search.as_ref().map_or_else(String::new, searched);
    let told = sized.answer.search.as_ref().map_or(0, |report| report.moves.len());
    let limits = &sized.answer.limits;
    for limit in &limits[..limits.len() - told] {
        text += &format!(
            "  near its limit: {} at {:.4} of {:.4} {}\n",
            limit.path,
            limit.value,
            limit.bound,
            limit.unit.symbol()
        );
    }
    text
}

/// Load, flywheel and what the band comes from.
fn beyond(sized: &Sized) -> Vec<String> {
    let a = &sized.answer;
    let load = a.load.iter().flat_map(|l| l.words.clone());
    let wheel = a.flywheel.iter().flat_map(|f| f.words.clone());
    load.chain(wheel).chain(most_of_the_band(&a.spread)).collect()
}

/// How far each uncertain input spreads, and who says so.
fn spreads(sized: &Sized) -> String {
    let mut text = String::from("what is uncertain: factors on the model, and the walls\n");
    for s in &sized.answer.spread {
        let who = if s.given { "given" } else { "default" };
        let moves = s.at_p10_w.zip(s.at_p90_w);
        let moves = moves.map_or_else(String::new, |(low, high)| format!("  {low:>8.2} to {high:>8.2} W"));
        let spread = format!("{}{}", s.spread, s.unit.words());
        text += &format!("  {:<18} {spread:<28} {who:<8}{moves}\n", s.words());
    }
    text
}

/// Said wherever the full model speaks: the band holds what is uncertain in the inputs, not what is wrong in the model.
const UNPROVEN: &str = "  not proven: 7 of 10 published measurements lie in such a band, but its middle is often far off; trust comparisons more than watts (README)\n";

/// Power: at the shaft with its band where the model knows it, else an upper bound.
fn power(sized: &Sized) -> String {
    let p = &sized.answer.operating_point;
    let Some(shaft) = p.shaft_power_w else {
        let joules = 60.0 * p.indicated_power_w / p.speed_rpm;
        return format!(
            "  indicated {:.1} W at {:.0} rpm, {joules:.1} J a turn ({} cycle: an upper bound, without friction, leak or lag of heat)\n",
            p.indicated_power_w, p.speed_rpm, p.model
        );
    };
    let band = p
        .shaft_power_band_w
        .map_or_else(String::new, |b| format!(", eight in ten between {:.1} and {:.1} W", b.p10, b.p90));
    let chance = sized.answer.verdict.probability;
    let chance = chance.map_or_else(String::new, |c| {
        format!("  {:.0} of 100 such engines turn themselves over\n", 100.0 * c)
    });
    format!(
        "  shaft {shaft:.1} W at {:.0} rpm{band} ({} model); indicated {:.1} W\n{chance}{UNPROVEN}",
        p.speed_rpm, p.model, p.indicated_power_w
    )
}

/// Nothing where no digit of it would show: no minus before a nought.
fn shown(power_w: f64) -> f64 {
    if power_w.abs() < 0.005 { 0.0 } else { power_w }
}

/// Power over speed and where it goes.
fn curve(sized: &Sized) -> String {
    let mut text = String::new();
    if !sized.answer.map.is_empty() {
        text += "power over speed\n";
        for point in &sized.answer.map {
            let shaft = point.shaft_power_w.unwrap_or(point.indicated_power_w);
            text += &format!(
                "  {:>7.0} rpm  shaft {:>8.2} W  indicated {:>8.2} W\n",
                point.speed_rpm,
                shown(shaft),
                shown(point.indicated_power_w)
            );
        }
    }
    if !sized.answer.losses.is_empty() {
        let at = sized.answer.verdict.judged_speed_rpm;
        text += &format!("where it goes{}\n", at.map_or_else(String::new, |rpm| format!(" at {rpm:.0} rpm")));
        let real = sized.answer.losses.iter().filter(|l| shown(l.power_w) != 0.0);
        real.for_each(|l| text += &format!("  {:<52} {:>9.2} W\n", l.name, l.power_w));
    }
    text
}

/// Every dimension with where it came from.
fn dimensions(sized: &Sized) -> String {
    let mut text = String::from("dimensions\n");
    for (path, dimension) in sized.engine.ledger.iter() {
        let shown = match dimension.unit {
            Unit::Kelvin => format!("{:.1} °C", dimension.value - 273.15),
            _ => dimension.to_string(),
        };
        text += &format!("  {path:<30} {shown:>12}  {}\n", dimension.origin);
    }
    text
}
