use crate::chart::{draw_axis, draw_curve, Axis, Curve, Panel, Scale};

pub fn panel() -> Panel {
    Panel::default()
}
