"""What to do about what was found: causes of symptoms, treatments, fabric kept."""
