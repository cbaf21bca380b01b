const POLL: u64 = 90; // seconds
const RETRIES: u32 = 5;
