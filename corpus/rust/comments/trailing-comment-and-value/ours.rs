const POLL: u64 = 60; // seconds
const RETRIES: u32 = 3;
