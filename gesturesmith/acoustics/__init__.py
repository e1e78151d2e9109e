"""The physics of brass as pure numbers: harmonic series, tubing, response. Uses only the standard library."""
