const DATUM: Level = Level(7);

use tides::Level;

use quay::Gauge;

fn height(gauge: &Gauge) -> Level {
    gauge.read() - DATUM
}
