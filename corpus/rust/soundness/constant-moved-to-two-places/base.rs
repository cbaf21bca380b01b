use tides::Level;

use quay::Gauge;

const DATUM: Level = Level(7);

fn height(gauge: &Gauge) -> Level {
    gauge.read() - DATUM
}
