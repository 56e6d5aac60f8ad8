// placeholder until the drop form lands
