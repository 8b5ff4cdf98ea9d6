//! Views of a part taken from its exact solid, each worked out once however often a sheet is laid out.

use super::board::{Board, Frame, Look};
use super::pen::Pen;
use super::units::Units;
use super::views::Scale;
use crate::shape::Point2;
use crate::shape::loops::Piece;
use crate::shape::project::{Drawn, View, project};
use crate::shape::solid::Solid;
use std::cell::RefCell;
use std::rc::Rc;

/// How near to an edge of the cut a line behind it counts as the same line \[mm\].
const ON_EDGE: f64 = 1e-4;
/// Largest scale of the axonometric view.
const LARGEST: f64 = 3.0;

/// The solid of a part with the views that have been taken of it.
pub struct Looks<'a> {
    solid: &'a Solid,
    /// Units in which its sizes are told.
    pub units: Units,
    taken: RefCell<Vec<(View, Rc<Vec<Drawn>>)>>,
}

impl<'a> Looks<'a> {
    /// Of a solid, without any view yet.
    pub fn of(solid: &'a Solid) -> Self {
        Self { solid, units: Units::Mm, taken: RefCell::default() }
    }

    /// With sizes told in these units.
    pub fn told_in(self, units: Units) -> Self {
        Self { units, ..self }
    }

    /// The lines of a view; `metal` tells where a cut meets metal.
    pub fn taken(&self, view: &View, metal: &dyn Fn(Point2) -> bool) -> Rc<Vec<Drawn>> {
        if let Some((_, drawn)) = self.taken.borrow().iter().find(|(v, _)| v == view) {
            return drawn.clone();
        }
        let drawn = Rc::new(project(self.solid, view, metal));
        self.taken.borrow_mut().push((view.clone(), drawn.clone()));
        drawn
    }

    /// Draws the view of the whole part, hidden edges dashed; returns its frame on the paper.
    pub fn draw(&self, board: &mut Board, name: &'static str, view: &View, scale: &Scale) -> Frame {
        let number = self.draw_behind(board, name, view, scale, &|_| false, &[]);
        board.view_frame(number)
    }

    /// Draws what is seen of the whole part from outside; returns its frame on the paper.
    pub fn draw_seen(&self, board: &mut Board, name: &'static str, view: &View, scale: &Scale) -> Frame {
        let number = note(board, name, view, scale);
        for line in self.taken(view, &|_| false).iter().filter(|l| l.visible) {
            board.edge(Pen::Visible, scale.flat(&line.flat), number);
        }
        board.view_frame(number)
    }

    /// The isometric view of the part (ISO 5456-3), at most `side` \[mm\] wide and high.
    pub fn picture(&self, side: f64) -> Board {
        let view = View::isometric();
        let drawn = self.taken(&view, &|_| false);
        let bounds = drawn.iter().map(|l| l.flat.bounds()).reduce(|a, b| a.joined(&b));
        let long = bounds.map_or(1.0, |b| b.size().x.max(b.size().y));
        let scale = Scale::new((side / long).min(LARGEST));
        let mut board = Board::default();
        let number = note(&mut board, "isometric", &view, &scale);
        for line in drawn.iter().filter(|l| l.visible) {
            let pen = if line.soft { Pen::Thread } else { Pen::Picture };
            board.edge(pen, scale.flat(&line.flat), number);
        }
        board
    }

    /// Draws what is seen behind a cut beyond its `edges`, and where it is not cut all of the part; returns the number of the view, for the edges of the cut itself.
    pub fn draw_behind(
        &self,
        board: &mut Board,
        name: &'static str,
        view: &View,
        scale: &Scale,
        metal: &dyn Fn(Point2) -> bool,
        edges: &[Piece],
    ) -> usize {
        let number = note(board, name, view, scale);
        let on_edge = |p: Point2| edges.iter().any(|e| e.distance(p) < ON_EDGE);
        let beyond = |l: &&Drawn| !l.visible || !l.flat.probes().all(on_edge);
        for line in self.taken(view, metal).iter().filter(beyond) {
            let pen = if line.visible { Pen::Visible } else { Pen::Hidden };
            board.edge(pen, scale.flat(&line.flat), number);
        }
        number
    }
}

/// Notes on a board from where a view is taken.
pub fn note(board: &mut Board, name: &'static str, view: &View, scale: &Scale) -> usize {
    board.look(Look { name, view: view.clone(), factor: scale.factor, origin: scale.origin, limit: None })
}
