flags! {
    pub struct Warnings: u32 {
        /// A spring tide.
        if coastal {
            const SPRING = 1;
        }
        /// A storm surge.
        #[cfg(not(any(
            upriver(inland),
            locked,
        )))]
    }
}
