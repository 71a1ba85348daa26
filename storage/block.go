package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// BlockID is an overload block's number in the database; it is never used twice.
type BlockID int64

// Block is a stored overload block.
type Block struct {
	ID BlockID
	planner.Block
}

var blockVersions = versions{table: "block", key: []string{"from_date", "to_date"}, content: []string{"percent"}}

// AddBlock keeps an overload block. The same stretch told again takes the new
// per cent; a block that touches another is an *Overlap.
func (db *DB) AddBlock(ctx context.Context, athlete AthleteID, today planner.Date, b planner.Block) (BlockID, error) {
	var id int64
	err := checkBlock(b)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			stored, err := blockTable.of(ctx, tx, athlete, standing)
			if err != nil {
				return err
			}
			for _, other := range stored {
				if other.From <= b.To && b.From <= other.To && (other.From != b.From || other.To != b.To) {
					return &Overlap{With: other.Block}
				}
			}
			id, err = blockVersions.keep(ctx, tx, athlete, today, fact{key: []any{b.From.String(), b.To.String()}, content: []any{b.Percent}})
			return err
		})
	}
	if err != nil {
		return 0, fmt.Errorf("block from %s to %s: %w", b.From, b.To, err)
	}
	return BlockID(id), nil
}

func checkBlock(b planner.Block) error {
	if b.Percent < 1 || b.Percent > planner.MaxBlockPercent {
		return &planner.InputError{Field: "percent", Msg: fmt.Sprintf("%d is outside 1 to %d per cent more than usual. For example 20", b.Percent, planner.MaxBlockPercent)}
	}
	return checkStretch(b.From, b.To)
}

// RemoveBlock takes back the rider's block; another rider's is ErrNotFound.
func (db *DB) RemoveBlock(ctx context.Context, athlete AthleteID, today planner.Date, id BlockID) error {
	return db.removeByID(ctx, &blockVersions, athlete, today, int64(id))
}

// Blocks lists the rider's overload blocks by date.
func (db *DB) Blocks(ctx context.Context, athlete AthleteID) ([]Block, error) {
	blocks, err := blockTable.of(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("blocks of rider %d: %w", athlete, explain(err))
	}
	return blocks, nil
}

var blockTable = factTable[Block]{"block", "id, from_date, to_date, percent, told, withdrawn", "from_date, to_date, told, id", scanBlock}

func scanBlock(b *Block, scan func(...any) error) error {
	on, withdrawn := told(&b.Told)
	return scan(&b.ID, date(&b.From), date(&b.To), &b.Percent, on, withdrawn)
}
