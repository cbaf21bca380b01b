fn a() {
    tide::gauge::Level::read();
}
