fn a() {
    tide::level::Depth::read();
}
