"""What the hands and the meter do: measuring plan, power-up, readings and what explains them, orders and jobs."""
