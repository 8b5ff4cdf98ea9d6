//! `swept size`: what the engine will do and where every number came from.

use super::Global;
use super::design_file::{DesignFile, refuse};
use super::exit::Exit;
use super::output::{print, say};
use super::render::render;
use clap::Args;
use swept::design::Design;
use swept::sizing::answer::{Sized, size};
use swept::sizing::dimension::Unit;

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
}

impl Size {
    pub fn run(&self, global: &Global) -> Exit {
        let design = match self.design.load_for(global, self.json) {
            Ok(design) => design,
            Err(exit) => return exit,
        };
        match size(&design) {
            Ok(sized) => self.tell(global, &design, &sized),
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
        let exit = print(&(summary(design, sized) + &dimensions(sized)));
        if !global.quiet {
            say("next: swept build with the same file, or --why DIMENSION for one chain");
        }
        exit
    }
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
    text += &format!(
        "  indicated {:.1} W at {:.0} rpm, {:.1} J a turn ({} cycle: an upper bound, without friction, leak or lag of heat)\n",
        p.indicated_power_w, p.speed_rpm, sized.cycle.work_j, p.model
    );
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
    for limit in &sized.answer.limits {
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
