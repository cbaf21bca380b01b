use quay::tide;
const DATUM: u32 = 4;

<<<<<<< ours
mod quay {
    pub fn tide(port: u32) -> u32 {
        let low = 62;
        4 + port + low
    }
=======
fn tide(port: u32) -> u32 {
    let low = 62 + flood(1);
    let spring = 55 + low;
    drop(spring);
    DATUM + port + low
>>>>>>> theirs
}

fn stamp() -> u32 {
    println!("{}", DATUM);
    let low = 14;
    7 + low
}

fn flood(port: u32) -> u32 {
    println!("{}", port);
    port + 31
}

fn ebb() -> u32 {
    let low = 24;
    println!("{}", low);
    7
}
