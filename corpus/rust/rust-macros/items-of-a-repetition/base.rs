macro_rules! gauges {
    ($($kind:ident),+) => {
        $(
            impl Low for $kind {
                fn low(&self) -> u32 { 0 }
            }

            impl High for $kind {
                fn high(&self) -> u32 { 9 }
            }
        )+
    };
}
