// placeholder until zooming lands
