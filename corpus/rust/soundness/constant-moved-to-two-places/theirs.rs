use tides::Level;

const DATUM: Level = Level(7);

use quay::Gauge;

fn height(gauge: &Gauge) -> Level {
    gauge.read() - DATUM
}
