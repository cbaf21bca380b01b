use crate::chart::{Panel, Scale};

pub fn panel() -> Panel {
    Panel::default()
}
