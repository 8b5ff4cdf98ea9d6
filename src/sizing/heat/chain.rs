//! The cold side as a row of bodies, each at one temperature, with heat coming in from the gas, joints between
//! neighbours, and ways out to air and water. Solved for the temperatures that result.

use super::surface::{AirSide, FinnedCylinder, Room};

/// Passes of the search; the air's film changes slowly with temperature.
const PASSES: usize = 200;
/// Settled when nothing moves by more \[K\].
const SETTLED_K: f64 = 1e-9;

/// Water that takes heat from a body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bath {
    /// Heat for each kelvin between body and mean water \[W/K\].
    pub conductance_w_k: f64,
    /// Water on entry \[K\].
    pub inlet_k: f64,
    /// Heat capacity of the flow \[W/K\].
    pub flow_w_k: f64,
}

impl Bath {
    /// Heat for each kelvin between body and entering water: half of the rise stands between \[W/K\].
    pub fn from_inlet_w_k(&self) -> f64 {
        1.0 / (1.0 / self.conductance_w_k + 0.5 / self.flow_w_k)
    }
}

/// One body of the row.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Plain name.
    pub name: String,
    /// Heat from the gas, and of friction \[W\].
    pub heat_w: f64,
    /// Its outside in the air.
    pub outside: Option<FinnedCylinder>,
    /// Water at it.
    pub bath: Option<Bath>,
    /// Joint to the next body of the row; of the last one it is not read \[W/K\].
    pub to_next_w_k: f64,
}

/// What became of a body.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// Its name.
    pub name: String,
    /// Temperature \[K\].
    pub temperature_k: f64,
    /// Heat to the air \[W\].
    pub to_air_w: f64,
    /// Heat to the water \[W\].
    pub to_water_w: f64,
    /// The air's side, where it stands in the air.
    pub air: Option<AirSide>,
}

/// Temperatures of a row; `None` where some body has no way out for its heat, or nothing settles.
pub fn settle(row: &[Body], room: &Room) -> Option<Vec<Settled>> {
    let mut temperatures: Vec<f64> = row.iter().map(|_| room.temperature_k + 20.0).collect();
    for _ in 0..PASSES {
        let next = solve(row, room, &temperatures)?;
        let moved = next.iter().zip(&temperatures).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        // half a step: the film grows with the rise
        temperatures = next.iter().zip(&temperatures).map(|(a, b)| 0.5 * (a + b)).collect();
        if moved < SETTLED_K {
            return Some(row.iter().zip(&temperatures).map(|(b, t)| b.settled(*t, room)).collect());
        }
    }
    None
}

impl Body {
    fn air(&self, temperature_k: f64, room: &Room) -> Option<AirSide> {
        self.outside.map(|o| o.air_side(temperature_k, room))
    }

    fn settled(&self, temperature_k: f64, room: &Room) -> Settled {
        let air = self.air(temperature_k, room);
        let to_air = air.map_or(0.0, |a| a.conductance_w_k * (temperature_k - room.temperature_k));
        let to_water = self.bath.map_or(0.0, |b| b.from_inlet_w_k() * (temperature_k - b.inlet_k));
        Settled { name: self.name.clone(), temperature_k, to_air_w: to_air, to_water_w: to_water, air }
    }
}

/// Temperatures with the films at the last ones: a three-banded system, by elimination.
fn solve(row: &[Body], room: &Room, last_k: &[f64]) -> Option<Vec<f64>> {
    let n = row.len();
    let link = |i: usize| if i + 1 < n { row[i].to_next_w_k } else { 0.0 };
    let (mut diagonal, mut right) = (vec![0.0; n], vec![0.0; n]);
    for (i, body) in row.iter().enumerate() {
        let air = body.air(last_k[i], room).map_or(0.0, |a| a.conductance_w_k);
        let water = body.bath.map_or(0.0, |b| b.from_inlet_w_k());
        let before = if i > 0 { link(i - 1) } else { 0.0 };
        diagonal[i] = air + water + before + link(i);
        right[i] = body.heat_w + air * room.temperature_k + body.bath.map_or(0.0, |b| water * b.inlet_k);
    }
    for i in 1..n {
        let factor = link(i - 1) / diagonal[i - 1];
        diagonal[i] -= factor * link(i - 1);
        right[i] += factor * right[i - 1];
    }
    let mut found = vec![0.0; n];
    for i in (0..n).rev() {
        let after = if i + 1 < n { link(i) * found[i + 1] } else { 0.0 };
        found[i] = (right[i] + after) / diagonal[i];
    }
    found.iter().all(|t| t.is_finite() && *t > 0.0 && *t < 1e5).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    fn body(name: &str, heat_w: f64, to_next_w_k: f64) -> Body {
        Body { name: name.into(), heat_w, outside: None, bath: None, to_next_w_k }
    }

    const ROOM: Room = Room { temperature_k: 298.15, speed_m_s: 0.0 };

    /// By hand: water of 15 °C at 4 W/K with a flow of 20 W/K: from entry 1/(1/4 + 1/40) = 3.636 W/K. All 60 W leave
    /// there: the last body is 16.5 K above entry; 40 W through 2 W/K put the first 20 K above that.
    #[test]
    fn two_bodies_and_water_of_a_hand_calculation() {
        let bath = Bath { conductance_w_k: 4.0, inlet_k: 288.15, flow_w_k: 20.0 };
        let row = [body("cylinder", 40.0, 2.0), Body { bath: Some(bath), ..body("block", 20.0, 0.0) }];
        let all = settle(&row, &ROOM).unwrap();
        close(all[1].temperature_k, 288.15 + 16.5, 1e-9);
        close(all[0].temperature_k, 288.15 + 36.5, 1e-9);
        close(all[1].to_water_w, 60.0, 1e-7);
    }

    #[test]
    fn heat_that_comes_in_goes_out() {
        let outside = FinnedCylinder {
            root_mm: 104.0,
            tip_mm: 116.0,
            length_mm: 60.0,
            fins: 6,
            fin_mm: 2.0,
            gap_mm: 4.0,
            conductivity_w_m_k: 172.0,
            emissivity: 0.1,
            lies: false,
        };
        let bath = Bath { conductance_w_k: 3.0, inlet_k: 288.15, flow_w_k: 20.0 };
        let row = [
            Body { outside: Some(outside), ..body("cylinder", 30.0, 1.5) },
            body("plate", 10.0, 2.0),
            Body { bath: Some(bath), ..body("block", 15.0, 0.0) },
        ];
        let all = settle(&row, &ROOM).unwrap();
        close(all.iter().map(|s| s.to_air_w + s.to_water_w).sum::<f64>(), 55.0, 1e-6);
        assert!(all[0].temperature_k > all[1].temperature_k && all[1].temperature_k > all[2].temperature_k);
    }

    #[test]
    fn heat_without_a_way_out_has_no_answer() {
        assert!(settle(&[body("alone", 10.0, 0.0)], &ROOM).is_none());
    }
}
