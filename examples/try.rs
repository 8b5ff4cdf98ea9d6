use swept::sizing::verdict::*;
use std::time::Instant;
fn main() {
    let f = std::env::args().nth(1).unwrap();
    let sets: Vec<(String,String)> = std::env::args().skip(2).map(|a| { let (k,v)=a.split_once('=').unwrap(); (k.to_string(),v.to_string()) }).collect();
    let bytes = std::fs::read(&f).unwrap();
    let (design, _) = swept::design::read(&f, &bytes, &sets).unwrap();
    let sized = swept::sizing::answer::size(&design).unwrap();
    let gas = swept::catalogue::gases::gas(&design.engine.gas.value).unwrap();
    let net = FullEngine { engine: sized.engine.clone(), surroundings: Surroundings::new(gas, design.engine.charge_pressure_pa.value), model: Default::default() };
    for n in [30.0, 60.0, 120.0, 200.0, 300.0, 450.0, 600.0] {
        let t = Instant::now();
        match net.at(n, &Change::NONE) {
            Ok(w) => println!("{n:5} rpm ind {:.3} J flow {:.3} fric {:.3} net {:.3} J  {:.2} W forced {:.3} p {:.0}..{:.0} mean {:.0} Th {:.0} Tc {:.0} Q {:.0} W supply {:.0} {:?}", w.indicated_j, w.flow_j, w.friction_j(), w.net_j, w.power_w(), w.forced_j, w.pressure_min_pa, w.pressure_max_pa, w.pressure_mean_pa, w.heat.hot_gas_k, w.heat.cold_gas_k, w.heat.cycle_w, w.heat.supply_w, t.elapsed()),
            Err(e) => println!("{n} {e} {:?}", t.elapsed()),
        }
    }
    let w = net.at(200.0, &Change::NONE).unwrap();
    for x in &w.friction { println!("   {} {:.4} J", x.name, x.work_j); }
    for x in &w.heat.losses { println!("   {} {:.2} W", x.name, x.power_w); }
    let t = Instant::now();
    match judge(&net, &Change::NONE, &Question::at(300.0)) { Ok(j) => { println!("{:#?}", j.verdict(None)); } Err(e) => println!("{e}") }
    println!("judge {:?}", t.elapsed());
    let t = Instant::now();
    let b = swept::sizing::band::of_engine(&net, &swept::sizing::band::Sampling{count: 40, ..swept::sizing::band::Sampling::at(300.0)});
    println!("{b:?} {:?}", t.elapsed());
}
