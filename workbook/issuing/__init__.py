"""From a lab to the folders that students get."""
