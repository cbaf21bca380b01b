flags! {
    pub struct Warnings: u32 {
        #[cfg(not(all(inland, locked)))]
        const NEAP = 2;
        /// A spring tide.
        if coastal {
            const SPRING = 1;
        }
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
