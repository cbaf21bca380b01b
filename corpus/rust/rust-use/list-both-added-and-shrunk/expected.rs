use crate::chart::{draw_panel, Panel, Scale};

pub fn panel() -> Panel {
    Panel::default()
}
