macro_rules! gauges {
    ($($T:ident)+) => {
        impl<'a, $($T,)+ Port, Clock> Gauge<Port, Clock> for &'a ($($T,)+)
        where
            Port: Harbour,
            Clock: Ticks,
            $(&'a $T: Gauge<Port, Clock> + Moored<Port>,)+
        {
            type Readings = ($(<&'a $T as Gauge<Port, Clock>>::Readings,)+);
        }
    }
}
