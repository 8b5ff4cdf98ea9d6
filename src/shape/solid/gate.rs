//! Where a turned feature enters the metal and leaves it: on a flat or through a cylinder.

use super::draft::Draft;
use super::error::SolidError;
use super::host::{self, Host, flats, no_face};
use super::meet::Crossing;
use super::skin::Skin;
use super::surface::{Surface, short};
use super::turn::{Station, Turning};
use crate::shape::{InnerSpace, Vector3};

impl Draft<'_> {
    /// The ring in which a bore enters (`out` against its direction) or leaves (along it), and its face.
    pub(super) fn gate(
        &self,
        turning: &Turning,
        r: f64,
        t: f64,
        out: Vector3,
    ) -> Result<(Station, Host), SolidError> {
        let flat = self.flat_gate(turning, r, t, out);
        match flat {
            Ok(found) => Ok(found),
            Err(first) => match self.round_gate(turning, r, t, out) {
                Some(found) => found,
                None => Err(first),
            },
        }
    }

    pub(super) fn flat_gate(
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

    pub(super) fn round_gate(
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

    /// Says what was looked for and where the nearest such faces are.
    pub(super) fn nothing_at(&self, turning: &Turning, t: f64, out: Vector3) -> String {
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
}
