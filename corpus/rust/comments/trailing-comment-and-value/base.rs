const POLL: u64 = 60;
const RETRIES: u32 = 3;
