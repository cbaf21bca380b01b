flags! {
    pub struct Warnings: u32 {
        /// A spring tide.
        const SPRING = 1;
        /// A storm surge.
        #[cfg(not(any(
            inland,
            locked,
        )))]
    }
}
