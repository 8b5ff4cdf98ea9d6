//! The solid while it is made: faces so far, and the features added to them one after another.

use super::chain::{self, number, profile};
use super::clash::{self, Made};
use super::error::SolidError;
use super::frame::Frame;
use super::host::{self, Host, flats, no_face, nothing_swallowed};
use super::meet::Crossing;
use super::skin::{Skin, Wire};
use super::space::Space;
use super::split;
use super::surface::{Surface, short};
use super::turn::{Station, Turning, leaves};
use super::wall::Sweep;
use crate::shape::loops::{Leave, Loop};
use crate::shape::recipe::{Body, End, Feature, Kind, ProfileNode, Recipe};
use crate::shape::{InnerSpace, Vector3};

/// Faces so far.
pub(super) struct Draft<'a> {
    recipe: &'a Recipe,
    pub skins: Vec<Skin>,
    made: Vec<Made>,
}

impl<'a> Draft<'a> {
    /// The body without its features.
    pub fn body(recipe: &'a Recipe) -> Result<Self, SolidError> {
        let frame = Frame::world();
        let angles = split::angles(&centre_of(recipe), &recipe.features);
        let turning = Turning { frame, angles, maker: 0, what: "body" };
        let skins = match &recipe.body {
            Body::Turned(nodes) => turned(&turning, nodes)?,
            Body::Plate { outline, thickness, .. } => plate(turning, &outline.boundary(), *thickness)?,
        };
        Ok(Self { recipe, skins, made: Vec::new() })
    }

    /// Adds feature number `i`.
    pub fn add(&mut self, i: usize) -> Result<(), SolidError> {
        let feature = &self.recipe.features[i];
        check_axis(feature)?;
        let maker = i + 1;
        match &feature.kind {
            Kind::Bore { chain, end, .. } => self.bore(&self.turning(feature, maker), chain, *end),
            Kind::Boss { chain } => self.boss(&self.turning(feature, maker), chain),
            Kind::Pocket { outline, depth, through } => {
                let sweep = self.sweep(feature, maker, outline, *depth, false)?;
                self.pocket(&sweep, outline, *through)
            }
            Kind::Pad { outline, height } => {
                let sweep = self.sweep(feature, maker, outline, *height, true)?;
                self.pad(&sweep, outline)
            }
        }
    }

    fn turning(&self, feature: &'a Feature, maker: usize) -> Turning<'a> {
        let frame = Frame::about(feature.axis.origin, feature.axis.direction);
        let angles = split::angles(&frame, &self.recipe.features);
        Turning { frame, angles, maker, what: &feature.name }
    }

    fn sweep(
        &self,
        feature: &'a Feature,
        maker: usize,
        outline: &Loop,
        height: f64,
        metal_inside: bool,
    ) -> Result<Sweep<'a>, SolidError> {
        let (what, a) = (feature.name.as_str(), feature.axis);
        if !(height.is_finite() && height > chain::TINY) {
            return Err(number(what, format!("depth or height {height} mm is not positive")));
        }
        let x = feature.x_axis;
        if (x.magnitude() - 1.0).abs() > 1e-6 || x.dot(a.direction).abs() > 1e-6 {
            return Err(number(
                what,
                "its x axis is not a unit direction square to its direction".to_owned(),
            ));
        }
        let frame = Frame::new(a.origin, a.direction, x);
        let centre = match outline {
            Loop::Circle { centre, .. } => Frame { origin: frame.point(centre.x, centre.y, 0.0), ..frame },
            Loop::Path(_) => frame,
        };
        let angles = split::angles(&centre, &self.recipe.features);
        Ok(Sweep { turning: Turning { frame, angles, maker, what }, height, metal_inside })
    }

    fn bore(&mut self, turning: &Turning, nodes: &[ProfileNode], end: End) -> Result<(), SolidError> {
        let corners = chain::open(nodes, end, turning.what)?;
        let d = turning.frame.z;
        let (first, entry) = self.gate(turning, corners[0].at.x, 0.0, -d)?;
        let last = corners[corners.len() - 1].at;
        let mut stations = vec![first];
        for corner in &corners[1..corners.len() - 1] {
            stations.push(turning.station(corner.at.x, corner.at.y)?);
        }
        if end != End::Island {
            nothing_swallowed(&self.skins, &entry, turning.what)?;
        }
        let exit = match end {
            End::Through => Some(self.gate(turning, last.x, last.y, d)?),
            _ => None,
        };
        let hosts: Vec<usize> =
            [Some(entry.face), exit.as_ref().map(|e| e.1.face)].into_iter().flatten().collect();
        self.clear(turning, &Space::turned(turning.frame, &corners), &hosts)?;
        match exit {
            Some((ring, exit)) => {
                nothing_swallowed(&self.skins, &exit, turning.what)?;
                self.skins[exit.face].loops.push(ring.wire().inverse());
                stations.push(ring);
            }
            None if end == End::Blind => stations.push(turning.station(0.0, last.y)?),
            None => {
                let ring = turning.station(last.x, 0.0)?;
                self.island(&entry, &ring, turning)?;
                stations.push(ring);
            }
        }
        straight_at_crossings(&stations, &corners, turning.what)?;
        self.skins[entry.face].loops.push(stations[0].wire());
        stations.reverse();
        let back = chain::backwards(&corners);
        self.skins.extend(turning.faces(&stations, &leaves(&back))?);
        Ok(())
    }

    /// The ring in which a bore enters (`out` against its direction) or leaves (along it), and its face.
    fn gate(&self, turning: &Turning, r: f64, t: f64, out: Vector3) -> Result<(Station, Host), SolidError> {
        let flat = self.flat_gate(turning, r, t, out);
        match flat {
            Ok(found) => Ok(found),
            Err(first) => match self.round_gate(turning, r, t, out) {
                Some(found) => found,
                None => Err(first),
            },
        }
    }

    fn flat_gate(
        &self,
        turning: &Turning,
        r: f64,
        t: f64,
        out: Vector3,
    ) -> Result<(Station, Host), SolidError> {
        let at = turning.frame.raised(t).origin;
        let candidates = flats(&self.skins, at, out);
        if candidates.is_empty() {
            return Err(no_face(turning.what, self.nothing_at(turning, t, out)));
        }
        let ring = turning.station(r, t)?;
        let host = host::pick(&self.skins, &candidates, &ring.wire(), turning.what)?;
        Ok((ring, host))
    }

    fn round_gate(
        &self,
        turning: &Turning,
        r: f64,
        t: f64,
        out: Vector3,
    ) -> Option<Result<(Station, Host), SolidError>> {
        let crossing = |s: &Skin| {
            Crossing::find(&turning.frame, &s.surface, t).filter(|c| {
                let side = if s.outward { c.outwards() } else { -c.outwards() };
                side * out.dot(turning.frame.z) > 0.0
            })
        };
        let found: Vec<(usize, Crossing)> =
            self.skins.iter().enumerate().filter_map(|(i, s)| crossing(s).map(|c| (i, c))).collect();
        let (_, first) = *found.first()?;
        let candidates: Vec<usize> = found.iter().map(|(i, _)| *i).collect();
        Some(first.station(turning, r, t).and_then(|ring| {
            let host = host::pick(&self.skins, &candidates, &ring.wire(), turning.what)?;
            Ok((ring, host))
        }))
    }

    /// Name of what made a face.
    fn name(&self, maker: usize) -> String {
        match maker.checked_sub(1).and_then(|i| self.recipe.features.get(i)) {
            Some(feature) => feature.name.clone(),
            None => "body".to_owned(),
        }
    }

    /// Refuses a pocket or pad whose space is not free.
    fn free(&self, sweep: &Sweep, outline: &Loop, hosts: &[usize]) -> Result<(), SolidError> {
        let space = Space::prism(sweep, outline);
        clash::with_faces(&self.skins, hosts, &space, sweep.turning.what, &|m| self.name(m))
    }

    /// Refuses a bore whose space is not free, and keeps its space for the bores that follow.
    fn clear(&mut self, turning: &Turning, space: &Space, hosts: &[usize]) -> Result<(), SolidError> {
        let bodies = clash::bodies(space);
        let meant: Vec<usize> = hosts.iter().map(|h| self.skins[*h].maker).collect();
        clash::with_bores(&self.made, &meant, &bodies, turning.what, &|m| self.name(m))?;
        clash::with_faces(&self.skins, hosts, space, turning.what, &|m| self.name(m))?;
        self.made.push(Made { maker: turning.maker, bodies });
        Ok(())
    }

    /// Says what was looked for and where the nearest such faces are.
    fn nothing_at(&self, turning: &Turning, t: f64, out: Vector3) -> String {
        let (f, along) = (&turning.frame, out.dot(turning.frame.z) > 0.0);
        let depth = |s: &Skin| match &s.surface {
            Surface::Plane(p) if p.z.dot(out) > 1.0 - 1e-9 => Some((p.origin - f.origin).dot(f.z)),
            _ => None,
        };
        let mut depths: Vec<f64> = self.skins.iter().filter_map(depth).collect();
        depths.sort_by(|a, b| (a - t).abs().total_cmp(&(b - t).abs()));
        let wanted = if along {
            format!("comes out of no face at depth {} mm", short(t))
        } else {
            "starts on no face square to it, nor on a cylinder crossed at right angles".to_owned()
        };
        match depths.first() {
            Some(d) => format!("{wanted}; the nearest flat face lies at depth {} mm", short(*d)),
            None => wanted,
        }
    }

    /// Cuts the island of a ring groove off its face, with the openings inside it.
    fn island(&mut self, entry: &Host, ring: &Station, turning: &Turning) -> Result<(), SolidError> {
        let mut island = Skin {
            surface: self.skins[entry.face].surface,
            outward: true,
            loops: vec![ring.wire().inverse()],
            maker: turning.maker,
        };
        for i in entry.swallowed.iter().rev() {
            let opening = self.skins[entry.face].loops.remove(*i);
            let fits = [island.clone()];
            host::pick(&fits, &[0], &opening, turning.what)?;
            island.loops.push(opening);
        }
        self.skins.push(island);
        Ok(())
    }

    fn boss(&mut self, turning: &Turning, nodes: &[ProfileNode]) -> Result<(), SolidError> {
        let corners = chain::open(nodes, End::Blind, turning.what)?;
        let (first, host) = self.flat_gate(turning, corners[0].at.x, 0.0, turning.frame.z)?;
        nothing_swallowed(&self.skins, &host, turning.what)?;
        let space = Space::turned(turning.frame, &corners);
        clash::with_faces(&self.skins, &[host.face], &space, turning.what, &|m| self.name(m))?;
        self.skins[host.face].loops.push(first.wire().inverse());
        let mut stations = vec![first];
        for corner in &corners[1..] {
            stations.push(turning.station(corner.at.x, corner.at.y)?);
        }
        self.skins.extend(turning.faces(&stations, &leaves(&corners))?);
        Ok(())
    }

    fn pocket(&mut self, sweep: &Sweep, outline: &Loop, through: bool) -> Result<(), SolidError> {
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

    fn pad(&mut self, sweep: &Sweep, outline: &Loop) -> Result<(), SolidError> {
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
}

/// The axis about which the body's own cylinders lie, as far as one matters for the split.
fn centre_of(recipe: &Recipe) -> Frame {
    let frame = Frame::world();
    match &recipe.body {
        Body::Turned(_) => frame,
        Body::Plate { outline, .. } => match outline.boundary() {
            Loop::Circle { centre, .. } => Frame { origin: frame.point(centre.x, centre.y, 0.0), ..frame },
            Loop::Path(_) => frame,
        },
    }
}

fn turned(turning: &Turning, nodes: &[ProfileNode]) -> Result<Vec<Skin>, SolidError> {
    let corners = chain::closed(nodes, turning.what)?;
    let mut stations =
        corners.iter().map(|c| turning.station(c.at.x, c.at.y)).collect::<Result<Vec<_>, _>>()?;
    stations.extend(stations.first().cloned());
    turning.faces(&stations, &leaves(&corners))
}

fn plate(turning: Turning, outline: &Loop, thickness: f64) -> Result<Vec<Skin>, SolidError> {
    if !(thickness.is_finite() && thickness > chain::TINY) {
        return Err(number(turning.what, format!("thickness {thickness} mm is not positive")));
    }
    let sweep = Sweep { turning, height: thickness, metal_inside: true };
    let walls = sweep.walls(outline)?;
    let bottom = Surface::Plane(Frame { z: -turning.frame.z, ..turning.frame });
    let mut skins = vec![Skin {
        surface: bottom,
        outward: true,
        loops: vec![walls.base.inverse()],
        maker: turning.maker,
    }];
    skins.push(lid(&sweep, walls.top, 1.0));
    skins.extend(walls.skins);
    Ok(skins)
}

/// The flat at the end of a sweep; `side` tells whether it looks along the sweep or against it.
fn lid(sweep: &Sweep, wire: Wire, side: f64) -> Skin {
    let frame = sweep.turning.frame.raised(sweep.height);
    let surface = Surface::Plane(Frame { z: frame.z * side, ..frame });
    Skin { surface, outward: true, loops: vec![wire], maker: sweep.turning.maker }
}

fn check_axis(feature: &Feature) -> Result<(), SolidError> {
    let (o, d) = (feature.axis.origin, feature.axis.direction);
    let finite = [o.x, o.y, o.z, d.x, d.y, d.z].iter().all(|v| v.is_finite());
    if !finite || (d.magnitude() - 1.0).abs() > 1e-6 {
        return Err(number(
            &feature.name,
            "its origin is not finite or its direction not a unit direction".into(),
        ));
    }
    Ok(())
}

/// Where a chain meets a cylinder, its surface there must be a plain cylinder that reaches past the curve.
fn straight_at_crossings(
    stations: &[Station],
    corners: &[chain::Corner],
    what: &str,
) -> Result<(), SolidError> {
    for (pair, leave) in stations.windows(2).zip(corners.iter().map(|c| c.leave)) {
        let curved = pair.iter().any(|s| s.reach[0] < s.reach[1]);
        let plain = leave == Leave::Line && (pair[0].r - pair[1].r).abs() < chain::TINY;
        if curved && !plain {
            return Err(profile(what, "the surface that meets a cylinder must be a plain cylinder"));
        }
        if curved && pair[0].reach[1] > pair[1].reach[0] - chain::PLACE {
            let depth = short(pair[0].reach[1]);
            return Err(profile(
                what,
                &format!("it meets the cylinder down to depth {depth} mm, deeper than its own step"),
            ));
        }
    }
    Ok(())
}
