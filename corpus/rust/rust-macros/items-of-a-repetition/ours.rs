macro_rules! gauges {
    ($($kind:ident),+) => {
        $(
            impl Least for $kind {}

            impl Low for $kind {
                fn low(&self) -> u32 { 1 }
            }

            impl High for $kind {
                fn high(&self) -> u32 { 9 }
            }
        )+
    };
}
