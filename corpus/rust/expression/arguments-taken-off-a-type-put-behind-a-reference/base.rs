pub struct Board<'a> {
    route: Route<'a>,
}
