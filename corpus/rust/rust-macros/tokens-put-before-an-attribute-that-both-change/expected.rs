flags! {
    pub struct Warnings: u32 {
        /// A spring tide.
        if coastal {
            const SPRING = 1;
        }
        #[cfg(not(all(inland, locked)))]
        const NEAP = 2;
        /// A storm surge.
        #[cfg(not(any(
<<<<<<< ours
            sheltered(inland),
=======
            upriver(inland),
>>>>>>> theirs
            locked,
        )))]
    }
}
