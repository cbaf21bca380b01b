pub(crate) struct Gauge {
    pub station: u32,
    pub day: u32,
    pub datum: u32,
}

fn show(gauge: Gauge) {
    let Gauge { station, day, datum } = gauge;
    draw(station, day + datum);
    let Gauge { station, day, .. } = neighbour(station);
    draw(station, day);
}
