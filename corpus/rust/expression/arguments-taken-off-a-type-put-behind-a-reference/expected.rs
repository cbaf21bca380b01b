pub struct Board<'a> {
    route: &'a Route,
}
