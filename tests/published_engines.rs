//! Predicted against published power of small engines: one set of coefficients, nothing fitted.

mod published;

use published::table::{markdown, rows, score};
use std::path::Path;

/// `SWEPT_WRITE_TABLE=1 cargo test --release --test published_engines` writes the table anew.
const WRITE: &str = "SWEPT_WRITE_TABLE";

#[test]
fn diag() {
    for e in published::data::file().engine {
        for p in &e.point {
            let law_built = published::path::build(&e, p, None, [-25.0, 7.5]);
            let mut tight = law_built.clone();
            tight.path.factors.leak = 0.0;
            tight.path.leaks.clear();
            let s = published::predict::solve(law_built, &Default::default()).unwrap();
            let t = published::predict::solve(tight, &Default::default()).unwrap();
            let f = s.per_second();
            let r = &s.cycle;
            let ad = { use swept::sizing::cycle::CycleModel; let law = s.built.path.law(); swept::sizing::cycle::Adiabatic::default().solve(&s.built.path.input(&law, 180)).unwrap().work_j * f };
            println!("{} meas {:?} adi {ad:.1} ind {:.1} (tight {:.1}) flow {:.1} shaft {:.1} p {:.2}/{:.2}/{:.2} eff {:?} conv {} {:?}", e.id, p.measured_w, r.work_j*f, t.cycle.work_j*f, r.detail.friction_j()*f, s.shaft_j()*f, r.pressure_min_pa/1e5, r.pressure_mean_pa/1e5, r.pressure_max_pa/1e5, r.efficiency, r.detail.closure.unwrap().turns,
              s.drive.friction.iter().map(|x| format!("{} {:.1}", x.name, x.work_j*f)).collect::<Vec<_>>());
            println!("     cells {:?}", r.detail.cells.iter().map(|c| format!("{} {:.0}", c.name, c.gas_mean_k)).collect::<Vec<_>>());
            println!("     q {:?}", r.detail.cells.iter().map(|c| format!("{:.1}/{:.1}", c.heat_j*f,c.heat_swing_j*f)).collect::<Vec<_>>());
            println!("     fric {:?} warn {:?}", r.detail.friction.iter().map(|x| format!("{} {:.1}W {:.0}Pa Re{:.0}", x.name, x.work_j*f, x.drop_max_pa, x.reynolds_max)).collect::<Vec<_>>(), r.detail.warnings);
        }
    }
}

#[test]
fn measured_power_against_the_band() {
    let rows = rows();
    for r in &rows { println!("{} {:?}", r.engine.id, r.band); }
    let text = markdown(&rows);
    println!("{text}");
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/published-table.md");
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&file, &text).unwrap();
    }
    let (inside, median) = score(&rows);
    println!("{inside} {median}");
}
