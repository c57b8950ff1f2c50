"""What people read: drawings to scale, drawn once in millimetres and written in many formats."""
