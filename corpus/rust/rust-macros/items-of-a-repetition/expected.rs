macro_rules! gauges {
    ($($kind:ident),+) => {
        $(
            impl Least for $kind {}

            #[allow(unused)]
            impl Low for $kind {
                fn lowest(&self) -> u32 { 1 }
            }

            impl Mean for $kind {}

            impl High for $kind {
                fn high(&self) -> u32 { 9 }
            }
        )+
    };
}
