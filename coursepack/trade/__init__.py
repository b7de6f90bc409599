"""The mathematics of the trade: plain functions of quantities, each with its source."""
