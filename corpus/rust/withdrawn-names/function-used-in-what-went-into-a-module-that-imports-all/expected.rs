use tides::low;

mod tides {
    use super::*;

    pub fn low(station: u32) -> u32 {
        log(datum(station));
        let half = station / 2;
        half.min(9)
    }
}

fn show(station: u32) {
    draw(low(station));
}

fn datum(station: u32) -> u32 {
    station * 3
}
