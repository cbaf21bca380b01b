macro_rules! gauges {
    ($($T:ident)+) => {
        impl<'a, $($T,)+ Port> Gauge<Port> for &'a ($($T,)+)
        where
            $(&'a $T: Gauge<Port> + Moored<Port>,)+
        {
            type Readings = ($(<&'a $T as Gauge<Port>>::Readings,)+);
        }
    }
}
