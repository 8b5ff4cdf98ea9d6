//! Cells of the gas path with everything that does not change from turn to turn.

use super::super::CycleError;
use super::super::path::leak::LeakGas;
use super::super::path::{EndSpace, Exchanger, GasPath, Leak, Place, Walls};
use super::super::transfer::{Surface, ends};
use crate::sizing::volumes::{Spaces, VolumeLaw, Zone};
use std::f64::consts::TAU;
use std::ops::Range;

/// What heats or cools a cell.
#[derive(Clone, Copy, Debug)]
pub(super) enum Wetted {
    /// A space: index of its column in [`Grid::ends`].
    Space(usize),
    /// A cell of an exchanger: Re for each J/K of flow a step, heat for each unit of Nu \[J/K a step\].
    Channel { surface: Surface, re: f64, heat: f64, d_over_l: f64 },
}

/// One cell.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    pub name: String,
    pub wetted: Wetted,
    /// Wall temperature \[K\]; of a matrix where the search begins.
    pub wall_k: f64,
    /// Wall temperatures at the faces towards hot and cold \[K\].
    pub wall_faces_k: [f64; 2],
    /// Heat capacity of a matrix cell \[J/K\].
    pub matrix_j_k: Option<f64>,
    /// Share of its heat that comes from the cold end: 0 hot, 1 cold.
    pub cold_share: f64,
    pub prandtl: f64,
    pub viscosity_pa_s: f64,
    /// First or last cell of its element.
    pub edge: [bool; 2],
}

/// An element as the friction sees it.
#[derive(Clone, Debug)]
pub(super) struct Element {
    pub exchanger: Exchanger,
    pub cells: Range<usize>,
}

/// A leak with its cell.
#[derive(Clone, Debug)]
pub(super) struct LeakAt {
    pub leak: Leak,
    pub cell: usize,
    pub gas: LeakGas,
}

/// The cells and their tables over the turn.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    pub cells: Vec<Cell>,
    pub elements: Vec<Element>,
    pub leaks: Vec<LeakAt>,
    pub steps: usize,
    pub step_s: f64,
    pub r: f64,
    /// c_p/R.
    pub c: f64,
    /// Multiplier of leaks with R and the step: kg/(s Pa) → J/(K Pa) a step.
    pub leak_scale: f64,
    pub buffer_pa: f64,
    pub buffer_k: f64,
    /// Volume of each cell at each step \[m³\].
    pub volumes: Vec<f64>,
    /// Growth of it in one step \[m³\].
    pub growths: Vec<f64>,
    /// Heat for each kelvin in the spaces at each step \[J/K\]: hot, cold, power.
    pub ends: Vec<[f64; 3]>,
}

impl Grid {
    /// Cuts a path into cells; `reference_pa` is the pressure at which the spaces' heat transfer is taken.
    pub fn of(path: &GasPath, law: &VolumeLaw, steps: usize, reference_pa: f64) -> Result<Self, CycleError> {
        let step_s = TAU / path.omega_rad_s() / steps as f64;
        let gamma = path.heat_capacity_ratio();
        let mut grid = Self {
            cells: Vec::new(),
            elements: Vec::new(),
            leaks: Vec::new(),
            steps,
            step_s,
            r: path.gas.r_j_kg_k,
            c: gamma / (gamma - 1.0),
            leak_scale: path.factors.leak * path.gas.r_j_kg_k * step_s,
            buffer_pa: path.buffer.pressure_pa,
            buffer_k: path.buffer.temperature_k,
            volumes: Vec::new(),
            growths: Vec::new(),
            ends: Vec::new(),
        };
        let places = grid.line_up(path);
        grid.tabulate(path, law, &places);
        grid.tabulate_ends(path, law, reference_pa);
        grid.place_leaks(path, &places, gamma)?;
        Ok(grid)
    }

    /// Number of cells.
    pub fn len(&self) -> usize {
        self.cells.len()
    }

    /// Puts the cells in line; gives the cell of each space.
    fn line_up(&mut self, path: &GasPath) -> [Option<usize>; 3] {
        let hot = self.space(path, Place::Hot, 0.0);
        path.exchangers.iter().for_each(|e| self.element(path, e, e.zone));
        let cold = self.space(path, Place::Cold, 1.0);
        path.port.iter().for_each(|e| self.element(path, e, Zone::Cold));
        let power = path.power.as_ref().and_then(|_| self.space(path, Place::Power, 1.0));
        [hot, cold, power]
    }

    fn space(&mut self, path: &GasPath, place: Place, cold_share: f64) -> Option<usize> {
        let (space, column) = match place {
            Place::Hot => (&path.hot, 0),
            Place::Cold => (&path.cold, 1),
            Place::Power => (path.power.as_ref()?, 2),
        };
        self.cells.push(Cell {
            name: space.name.clone(),
            wetted: Wetted::Space(column),
            wall_k: space.wall_k,
            wall_faces_k: [space.wall_k; 2],
            matrix_j_k: None,
            cold_share,
            prandtl: path.gas.prandtl(space.wall_k),
            viscosity_pa_s: path.gas.viscosity_pa_s(space.wall_k),
            edge: [true, true],
        });
        Some(self.cells.len() - 1)
    }

    fn element(&mut self, path: &GasPath, e: &Exchanger, zone: Zone) {
        let first = self.cells.len();
        let [hot_k, cold_k] = e.walls.ends_k();
        let at = |share: f64| hot_k + (cold_k - hot_k) * share;
        let n = e.cells as f64;
        for i in 0..e.cells {
            let middle = (i as f64 + 0.5) / n;
            let wall_k = at(middle);
            let (viscosity, conductivity) =
                (path.gas.viscosity_pa_s(wall_k), path.gas.conductivity_w_m_k(wall_k));
            let re = e.hydraulic_m / (self.r * self.step_s * e.flow_area_m2 * viscosity);
            let heat =
                path.factors.heat_transfer * conductivity / e.hydraulic_m * e.wetted_m2 / n * self.step_s;
            self.cells.push(Cell {
                name: if e.cells == 1 { e.name.clone() } else { format!("{} {}", e.name, i + 1) },
                wetted: Wetted::Channel {
                    surface: e.surface,
                    re,
                    heat,
                    d_over_l: e.hydraulic_m / e.length_m,
                },
                wall_k,
                wall_faces_k: [at(i as f64 / n), at((i + 1) as f64 / n)],
                matrix_j_k: match e.walls {
                    Walls::Matrix { capacity_j_k, .. } => Some(capacity_j_k / n),
                    Walls::Fixed { .. } => None,
                },
                cold_share: match zone {
                    Zone::Hot => 0.0,
                    Zone::Between => middle,
                    Zone::Cold => 1.0,
                },
                prandtl: path.gas.prandtl(wall_k),
                viscosity_pa_s: viscosity,
                edge: [i == 0, i + 1 == e.cells],
            });
        }
        self.elements.push(Element { exchanger: e.clone(), cells: first..self.cells.len() });
    }

    /// Volumes and their growth over the turn.
    fn tabulate(&mut self, path: &GasPath, law: &VolumeLaw, places: &[Option<usize>; 3]) {
        let mut fixed = vec![0.0; self.len()];
        for e in &self.elements {
            let each = e.exchanger.volume_m3 / e.cells.len() as f64;
            fixed[e.cells.clone()].fill(each);
        }
        let dead = [path.hot.dead_m3, path.cold.dead_m3, path.power.as_ref().map_or(0.0, |p| p.dead_m3)];
        let step = TAU / self.steps as f64;
        for k in 0..self.steps {
            let angle = k as f64 * step;
            let own = path.power.is_some();
            let (now, slope) = (by_place(&law.at(angle), own), by_place(&law.slope(angle), own));
            let (start, n) = (self.volumes.len(), self.len());
            self.volumes.extend_from_slice(&fixed);
            self.growths.resize(start + n, 0.0);
            for (column, cell) in places.iter().enumerate() {
                if let Some(cell) = cell {
                    self.volumes[start + cell] = now[column] + dead[column];
                    self.growths[start + cell] = slope[column] * step;
                }
            }
        }
    }

    /// Heat transfer of the spaces over the turn.
    fn tabulate_ends(&mut self, path: &GasPath, law: &VolumeLaw, reference_pa: f64) {
        let spaces = [Some(&path.hot), Some(&path.cold), path.power.as_ref()];
        let openings = [path.exchangers.first(), path.exchangers.last(), path.port.last()];
        let step = TAU / self.steps as f64;
        let own = path.power.is_some();
        let all: Vec<[f64; 3]> = (0..self.steps).map(|k| by_place(&law.at(k as f64 * step), own)).collect();
        self.ends = vec![[0.0; 3]; self.steps];
        for (column, space) in spaces.into_iter().enumerate() {
            let Some(space) = space else { continue };
            let volumes: Vec<f64> = all.iter().map(|v| v[column] + space.dead_m3).collect();
            let films = self.films(path, space, openings[column], &volumes, reference_pa);
            for ((row, volume), film) in self.ends.iter_mut().zip(&volumes).zip(films) {
                row[column] = path.factors.end_heat_transfer * film * space.area_m2(*volume) * self.step_s;
            }
        }
    }

    /// Film of a space at each of its volumes \[W/(m² K)\]. A path without exchangers is a gas spring; a power cylinder
    /// without a port breathes as an engine with valves does.
    fn films(
        &self,
        path: &GasPath,
        space: &EndSpace,
        opening: Option<&Exchanger>,
        volumes: &[f64],
        reference_pa: f64,
    ) -> Vec<f64> {
        let conductivity = path.gas.conductivity_w_m_k(space.wall_k);
        let density = path.gas.density_kg_m3(reference_pa, space.wall_k);
        let diffusivity = conductivity / (density * self.c * self.r);
        let most = volumes.iter().copied().fold(0.0, f64::max);
        let least = volumes.iter().copied().fold(f64::INFINITY, f64::min);
        let wall_m_s = 2.0 * (most - least) / space.section_m2() * path.speed_rpm / 60.0;
        let ratio = opening.map_or(ends::VALVE_RATIO, |e| space.section_m2() / e.flow_area_m2);
        let speed = ends::exchange_speed(ratio) * wall_m_s;
        let re = density * speed * space.diameter_m / path.gas.viscosity_pa_s(space.wall_k);
        let streams = if path.exchangers.is_empty() { 0.0 } else { ends::exchange_nusselt(re) };
        let streaming = streams * conductivity / space.diameter_m;
        let film = |volume: &f64| {
            let hydraulic = 4.0 * volume / space.area_m2(*volume);
            let pe = ends::peclet(path.omega_rad_s(), hydraulic, diffusivity);
            ends::side_by_side(ends::nusselt(pe) * conductivity / hydraulic, streaming)
        };
        volumes.iter().map(film).collect()
    }

    fn place_leaks(
        &mut self,
        path: &GasPath,
        places: &[Option<usize>; 3],
        gamma: f64,
    ) -> Result<(), CycleError> {
        for leak in &path.leaks {
            let column = match leak.from {
                Place::Hot => 0,
                Place::Cold => 1,
                Place::Power => 2,
            };
            let cell = places[column].ok_or(CycleError::PowerSpace)?;
            let temperature_k = self.cells[cell].wall_k;
            let viscosity_pa_s = path.gas.viscosity_pa_s(temperature_k);
            let gas = LeakGas { r_j_kg_k: self.r, gamma, viscosity_pa_s, temperature_k };
            self.leaks.push(LeakAt { leak: leak.clone(), cell, gas });
        }
        Ok(())
    }

    /// Whether gas can get out: then the mean pressure settles by itself.
    pub fn breathes(&self) -> bool {
        self.leak_scale > 0.0 && !self.leaks.is_empty()
    }
}

/// Hot space, cold space and power cylinder; without one of its own that is part of the cold space.
fn by_place(s: &Spaces, own_power: bool) -> [f64; 3] {
    if own_power { [s.hot_m3, s.cold_m3, s.power_m3] } else { [s.hot_m3, s.all_cold_m3(), 0.0] }
}
