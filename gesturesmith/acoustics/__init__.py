"""The physics of brass as pure numbers: harmonic series, tubing, response. The standard library only."""
