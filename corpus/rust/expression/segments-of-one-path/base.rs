fn a() {
    tide::level::Level::read();
}
