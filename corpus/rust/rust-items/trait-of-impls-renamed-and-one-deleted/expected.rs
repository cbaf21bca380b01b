mod sealed {
    pub trait Private {}
<<<<<<< ours
    impl Private for Tide {}
=======
>>>>>>> theirs
    impl Private for Surge {}
    impl Private for Station {}
}
