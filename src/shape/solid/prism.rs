//! Pockets and pads: what is swept along the axis of a feature.

use super::clash;
use super::draft::Draft;
use super::error::SolidError;
use super::frame::Frame;
use super::host::{self, Host, flats, no_face, nothing_swallowed};
use super::skin::{Skin, Wire};
use super::space::Space;
use super::surface::Surface;
use super::wall::Sweep;
use crate::shape::Vector3;
use crate::shape::loops::Loop;

impl Draft<'_> {
    /// Takes a pocket away.
    pub(super) fn pocket(&mut self, sweep: &Sweep, outline: &Loop, through: bool) -> Result<(), SolidError> {
        let walls = sweep.walls(outline)?;
        let frame = sweep.turning.frame;
        let entry = self.flat_host(sweep, &walls.base, 0.0, -frame.z)?;
        let exit =
            if through { Some(self.flat_host(sweep, &walls.top, sweep.height, frame.z)?) } else { None };
        let hosts: Vec<usize> = exit.iter().chain([&entry]).map(|h| h.face).collect();
        self.free(sweep, outline, &hosts)?;
        let floor = walls.top.inverse();
        match exit {
            Some(exit) => self.skins[exit.face].loops.push(floor),
            None => self.skins.push(lid(sweep, floor, -1.0)),
        }
        self.skins[entry.face].loops.push(walls.base);
        self.skins.extend(walls.skins);
        Ok(())
    }

    /// Adds a pad.
    pub(super) fn pad(&mut self, sweep: &Sweep, outline: &Loop) -> Result<(), SolidError> {
        let walls = sweep.walls(outline)?;
        let host = self.flat_host(sweep, &walls.base, 0.0, sweep.turning.frame.z)?;
        self.free(sweep, outline, &[host.face])?;
        self.skins[host.face].loops.push(walls.base.inverse());
        self.skins.push(lid(sweep, walls.top, 1.0));
        self.skins.extend(walls.skins);
        Ok(())
    }

    fn flat_host(&self, sweep: &Sweep, wire: &Wire, t: f64, out: Vector3) -> Result<Host, SolidError> {
        let turning = &sweep.turning;
        let candidates = flats(&self.skins, turning.frame.raised(t).origin, out);
        if candidates.is_empty() {
            return Err(no_face(turning.what, self.nothing_at(turning, t, out)));
        }
        let host = host::pick(&self.skins, &candidates, wire, turning.what)?;
        nothing_swallowed(&self.skins, &host, turning.what)?;
        Ok(host)
    }

    /// Refuses a pocket or pad whose space is not free.
    fn free(&self, sweep: &Sweep, outline: &Loop, hosts: &[usize]) -> Result<(), SolidError> {
        let space = Space::prism(sweep, outline);
        clash::with_faces(&self.skins, hosts, &space, sweep.turning.what, &|m| self.name(m))
    }
}

/// The flat at the end of a sweep; `side` tells whether it looks along the sweep or against it.
pub(super) fn lid(sweep: &Sweep, wire: Wire, side: f64) -> Skin {
    let frame = sweep.turning.frame.raised(sweep.height);
    let surface = Surface::Plane(Frame { z: frame.z * side, ..frame });
    Skin { surface, outward: true, loops: vec![wire], maker: sweep.turning.maker }
}
