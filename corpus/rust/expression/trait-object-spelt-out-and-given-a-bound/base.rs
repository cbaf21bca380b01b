pub fn feed(url: &str) -> Box<Feed> {
    open(url)
}

pub struct Board<'a> {
    gauge: Box<Gauge<Metres> + 'a>,
    route: &'a Feed,
}
