pub struct Board<'a> {
    route: Route,
}
