const POLL: u64 = 90;
const RETRIES: u32 = 5;
