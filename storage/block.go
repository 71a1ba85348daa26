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

// AddBlock keeps an overload block. The same stretch told again takes the new
// per cent and keeps its number; a block that touches another is an *Overlap.
func (db *DB) AddBlock(ctx context.Context, athlete AthleteID, b planner.Block) (BlockID, error) {
	var id BlockID
	err := checkBlock(b)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			stored, err := blocks(ctx, tx, athlete)
			if err != nil {
				return err
			}
			for _, other := range stored {
				if other.From <= b.To && b.From <= other.To && (other.From != b.From || other.To != b.To) {
					return &Overlap{With: other.Block}
				}
			}
			return tx.QueryRowContext(ctx, `INSERT INTO block (athlete_id, from_date, to_date, percent) VALUES (?, ?, ?, ?)
				ON CONFLICT (athlete_id, from_date, to_date) DO UPDATE SET percent = excluded.percent RETURNING id`,
				athlete, b.From.String(), b.To.String(), b.Percent).Scan(&id)
		})
	}
	if err != nil {
		return 0, fmt.Errorf("block from %s to %s: %w", b.From, b.To, err)
	}
	return id, nil
}

func checkBlock(b planner.Block) error {
	if b.Percent < 1 || b.Percent > planner.MaxBlockPercent {
		return &planner.InputError{Field: "percent", Msg: fmt.Sprintf("%d is outside 1 to %d per cent more than usual; for example 20", b.Percent, planner.MaxBlockPercent)}
	}
	return checkStretch(b.From, b.To)
}

// RemoveBlock deletes the rider's block; another rider's is ErrNotFound.
func (db *DB) RemoveBlock(ctx context.Context, athlete AthleteID, id BlockID) error {
	return db.removeByID(ctx, "block", athlete, int64(id))
}

// Blocks lists the rider's overload blocks by date.
func (db *DB) Blocks(ctx context.Context, athlete AthleteID) ([]Block, error) {
	blocks, err := blocks(ctx, db.reader, athlete)
	if err != nil {
		return nil, fmt.Errorf("blocks of rider %d: %w", athlete, explain(err))
	}
	return blocks, nil
}

func blocks(ctx context.Context, q queryer, athlete AthleteID) ([]Block, error) {
	return list(ctx, q, func(b *Block, scan func(...any) error) error {
		return scan(&b.ID, date(&b.From), date(&b.To), &b.Percent)
	}, `SELECT id, from_date, to_date, percent FROM block WHERE athlete_id = ? ORDER BY from_date, to_date`, athlete)
}
