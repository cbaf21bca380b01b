mod sealed {
    pub trait Private {}
    impl Private for Tide {}
    impl Private for Surge {}
    impl Private for Station {}
}
