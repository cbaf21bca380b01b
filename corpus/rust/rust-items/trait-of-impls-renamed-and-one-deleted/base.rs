mod sealed {
    pub trait Sealed {}
    impl Sealed for Tide {}
    impl Sealed for Surge {}
    impl Sealed for Station {}
}
