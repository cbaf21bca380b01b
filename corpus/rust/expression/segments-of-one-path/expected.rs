fn a() {
<<<<<<< ours
    tide::gauge::Level::read();
=======
    tide::level::Depth::read();
>>>>>>> theirs
}
