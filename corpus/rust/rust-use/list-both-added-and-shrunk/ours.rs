use crate::chart::{draw_panel, Curve, Panel, Scale};

pub fn panel() -> Panel {
    Panel::default()
}
