use super::*;

fn block(name: &str, at: f64, half: f64) -> Piece {
    let eye = View::isometric().frame;
    let origin = Point3::new(0.0, 0.0, at);
    let c = eye.flat(origin);
    Piece {
        part: name.to_owned(),
        axis: (origin, Vector3::unit_z()),
        lines: Vec::new(),
        frame: Frame::new(c.x - half, c.y - half, 2.0 * half, 2.0 * half),
        string: 0,
    }
}

#[test]
fn parts_of_one_axis_come_apart_in_their_order() {
    let spread =
        strings::spread(vec![block("ring", 1.0, 20.0), block("piston", 0.0, 20.0), block("cap", 2.0, 25.0)]);
    let names: Vec<&str> = spread.iter().map(|p| p.part.as_str()).collect();
    assert_eq!(names, ["piston", "ring", "cap"]);
    for (i, a) in spread.iter().enumerate() {
        assert!(spread[i + 1..].iter().all(|b| !a.frame.overlaps(&b.frame)), "{}", a.part);
        assert!(a.frame.centre().x.abs() < 1e-9, "along the axis alone");
    }
    assert_eq!(strings::axes(&spread).len(), 2);
}

#[test]
fn strings_move_aside() {
    let mut other = block("pulley", 0.0, 30.0);
    other.axis.1 = Vector3::unit_y();
    let spread = strings::spread(vec![block("plate", 0.0, 30.0), other]);
    assert!(!spread[0].frame.overlaps(&spread[1].frame));
}
