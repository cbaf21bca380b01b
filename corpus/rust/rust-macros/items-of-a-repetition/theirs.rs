macro_rules! gauges {
    ($($kind:ident),+) => {
        $(
            #[allow(unused)]
            impl Low for $kind {
                fn lowest(&self) -> u32 { 0 }
            }

            impl Mean for $kind {}

            impl High for $kind {
                fn high(&self) -> u32 { 9 }
            }
        )+
    };
}
