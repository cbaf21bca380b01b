use std::collections::HashMap;
use std::fmt;

use crate::gauge::{Gauge, Reading};

/// What the dashboard shows.
#[derive(Debug, Clone)]
pub struct Board {
    pub name: String,
    pub level: f64,
    gauges: Vec<Gauge>,
}

impl Board {
    pub fn new(name: &str) -> Self {
        Board {
            name: name.to_string(),
            level: 0.0,
            gauges: Vec::new(),
        }
    }

    pub fn add(&mut self, gauge: Gauge) {
        self.gauges.push(gauge);
    }

    pub fn highest(&self) -> Option<&Gauge> {
        self.gauges.iter().max_by(|a, b| a.level.total_cmp(&b.level))
    }

    pub fn refresh(&mut self) -> Result<(), ReadError> {
<<<<<<< ours
=======
        if self.paused {
            return;
        }
>>>>>>> theirs
        for gauge in &mut self.gauges {
            let reading = gauge.read()?;
            self.level = self.level.max(reading.level);
        }
        Ok(())
    }
}
