"""What the work on a house costs, with how sure that is and where every line comes from."""

from evenhung.plan.price.document import price_document
from evenhung.plan.price.house import HousePrice, price_house

__all__ = ["HousePrice", "price_document", "price_house"]
