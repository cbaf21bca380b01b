pub(crate) struct Gauge {
    pub station: u32,
    pub day: u32,
}

fn show(gauge: Gauge) {
    let Gauge { station, day } = gauge;
    draw(station, day);
    let Gauge { station, day } = neighbour(station);
    draw(station, day);
}
