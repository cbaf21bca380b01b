pub fn feed(url: &str) -> Box<dyn Feed> {
    open(url)
}

pub struct Board<'a> {
    gauge: Box<dyn Gauge<Metres> + 'a>,
    route: &'a dyn Feed,
}
